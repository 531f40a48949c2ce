// When nobody has touched anything for a while, the kiosk asks whether somebody is there. What was typed goes along.
(function () {
  "use strict";

  const seconds = Number(document.body.dataset.idle);
  const form = document.getElementById("answer") || document.getElementById("aside");
  const aside = document.getElementById("aside");
  if (!seconds || !form || location.pathname === "/away") {
    return;
  }
  let timer = 0;

  function away() {
    if (document.body.classList.contains("sending")) {
      here(); // what is being sent, or waits for the network, must not be cut off
      return;
    }
    const to = document.createElement("input");
    to.type = "hidden";
    to.name = "to";
    to.value = "away";
    form.append(to);
    form.action = aside.action;
    form.submit();
  }

  function here() {
    clearTimeout(timer);
    timer = setTimeout(away, seconds * 1000);
  }

  ["keydown", "pointerdown", "touchstart"].forEach(function (name) {
    document.addEventListener(name, here, { passive: true, capture: true });
  });
  here();
})();
