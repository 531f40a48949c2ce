// Reads the sheet aloud where the browser has a voice for its language. The key shows itself only then.
(function () {
  "use strict";

  const key = document.querySelector("[data-aloud-key]");
  const speech = window.speechSynthesis;
  if (!key || !speech) {
    return;
  }
  const tongue = document.documentElement.lang;

  function voice() {
    return speech.getVoices().find(function (one) {
      return one.lang.toLowerCase().replace("_", "-").split("-")[0] === tongue;
    });
  }

  function offer() {
    key.hidden = !voice();
  }

  function words() {
    return Array.from(document.querySelectorAll("h1, [data-aloud]")).map(function (part) {
      return (part.innerText || "").trim();
    }).filter(Boolean);
  }

  key.addEventListener("click", function () {
    if (speech.speaking) {
      speech.cancel();
      return;
    }
    words().forEach(function (text) {
      const said = new SpeechSynthesisUtterance(text);
      said.voice = voice();
      said.lang = said.voice.lang;
      speech.speak(said);
    });
  });

  window.addEventListener("pagehide", function () { speech.cancel(); });
  speech.addEventListener("voiceschanged", offer);
  offer();
})();
