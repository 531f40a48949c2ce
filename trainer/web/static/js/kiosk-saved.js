// While the server cannot be reached, nothing is sent: the sheet says that it is not saved yet, keeps what was pressed
// or typed, and sends it by itself as soon as the server answers. Sent twice, an answer is stored once: its key tells.
(function () {
  "use strict";

  const AGAIN = 2000; // ms between two tries
  const LONGEST = 4000; // ms that a try may take
  const GONE = 10000; // ms after which what was sent has led to another sheet, or never will
  const probe = document.currentScript.src;
  const band = document.querySelector("[data-unsaved]");
  let held = null; // the form that waits to be sent, and the key that was pressed
  let clear = false;

  function reached() {
    const stop = new AbortController();
    const timer = setTimeout(function () { stop.abort(); }, LONGEST);
    return fetch(probe, { method: "HEAD", cache: "no-store", signal: stop.signal }).then(
      function (answer) { return answer.ok; },
      function () { return false; }
    ).finally(function () { clearTimeout(timer); });
  }

  function show(waiting) {
    band.hidden = !waiting;
    document.body.classList.toggle("unsaved", waiting);
    if (held && held.key) {
      held.key.classList.toggle("unsent", waiting);
    }
  }

  function go() {
    const one = held;
    held = null;
    clear = true;
    one.form.requestSubmit(one.key && one.key.form === one.form ? one.key : undefined);
    clear = false;
    setTimeout(function () { document.body.classList.remove("sending"); }, GONE);
  }

  function attempt() {
    reached().then(function (there) {
      show(!there);
      if (there) {
        go();
      } else {
        setTimeout(attempt, AGAIN);
      }
    });
  }

  document.addEventListener("submit", function (event) {
    if (clear) {
      return;
    }
    event.preventDefault();
    event.stopImmediatePropagation();
    if (held) {
      return; // one thing at a time: what was pressed first is sent first
    }
    held = { form: event.target, key: event.submitter };
    document.body.classList.add("sending");
    attempt();
  }, true);
})();
