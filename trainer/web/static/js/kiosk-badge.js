// A badge reader types as a keyboard does, into whatever has the focus. Its keys come faster than a hand can press
// them. Here such a run of keys is told from typing: it never stays in an answer box, never presses a key of the
// sheet and never sends a form. On the first sheet it fills the badge's box; later it opens a sheet of its own.
(function () {
  "use strict";

  const FAST = 40; // ms between two keys of a reader
  const LEAST = 6; // keys in a row before it is called a badge
  const AFTER = 400; // ms after a badge in which an Enter still belongs to its reader: some send two
  const PATIENCE = 90; // ms that Enter waits, because some readers send it first

  // Somebody who types fast may press two keys as close together as a reader does. Where words are written, only what
  // looks like a code is one: a sign or two, then digits and capital letters of a hexadecimal number.
  const CODE = /^[^0-9A-Za-z\s]{0,2}[0-9A-F]+[^0-9A-Za-z\s]{0,2}$/;

  let run = "";
  let last = 0;
  let read = -AFTER; // when the last badge was read
  let leaving = false; // another sheet was asked for, and nothing may take its place
  let before = null;
  let caught = false;
  let waiting = null;
  let quiet = null;

  const badgeBox = document.querySelector("[data-badge]");
  const badgeForm = document.getElementById("badge");

  // A browser gives the focus to an autofocus box only with its first picture, which on a busy machine comes after the
  // sheet can be typed on: the first digit would be lost.
  const first = document.querySelector("[autofocus]");
  if (first && document.activeElement === document.body) {
    first.focus();
  }

  function isBox(element) {
    return element instanceof HTMLInputElement && /^(text|password)$/.test(element.type) || element instanceof HTMLTextAreaElement;
  }

  function start(target) {
    run = "";
    caught = false;
    before = isBox(target) ? { box: target, value: target.value } : null;
  }

  function mayBeBadge() {
    return !(before && before.box instanceof HTMLTextAreaElement) || CODE.test(run);
  }

  function cleaned(code) {
    return code.replace(/^[^0-9A-Za-z]+|[^0-9A-Za-z]+$/g, "");
  }

  function finish() {
    clearTimeout(quiet);
    if (!caught) {
      return;
    }
    const code = cleaned(run);
    read = performance.now();
    start(document.activeElement);
    if (badgeBox) {
      badgeBox.value = code;
      badgeBox.dispatchEvent(new Event("input", { bubbles: true }));
      const said = document.querySelector("[data-say-read]");
      if (said) {
        said.textContent = said.dataset.sayRead;
      }
      document.getElementById("pin").focus();
    } else if (badgeForm) {
      badgeForm.elements.code.value = code;
      ["number", "unit", "at"].forEach(function (name) {
        const answer = document.getElementById("answer");
        const field = answer && answer.elements[name];
        if (field && badgeForm.elements[name]) {
          badgeForm.elements[name].value = field.value;
        }
      });
      leaving = true;
      badgeForm.submit();
    }
  }

  function act(target) {
    waiting = null;
    if (isBox(target) && target.form) {
      target.form.requestSubmit(Array.from(target.form.elements).find(function (one) { return one.type === "submit"; }));
    } else if (target && target.click) {
      target.click();
    }
  }

  document.addEventListener("keydown", function (event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) {
      return;
    }
    const now = event.timeStamp; // when it was pressed, however busy the machine is
    if (leaving || (event.key === "Enter" && now - read < AFTER)) {
      event.preventDefault();
      return;
    }
    if (event.key === "Enter" && !(event.target instanceof HTMLTextAreaElement && !caught)) {
      event.preventDefault();
      if (caught) {
        finish();
        return;
      }
      const target = event.target;
      clearTimeout(waiting);
      waiting = setTimeout(act, PATIENCE, target);
      return;
    }
    if (event.key.length !== 1) {
      return;
    }
    if (waiting !== null) {
      clearTimeout(waiting); // Enter came first: it belongs to a reader, or to somebody who typed on
      waiting = null;
      start(event.target);
    } else if (now - last > FAST) {
      start(event.target);
    }
    last = now;
    run += event.key;
    if (!caught && run.length >= LEAST && mayBeBadge()) {
      caught = true;
      if (before) {
        before.box.value = before.value;
        before.box.dispatchEvent(new Event("input", { bubbles: true }));
      }
    }
    if (caught) {
      event.preventDefault();
      clearTimeout(quiet);
      quiet = setTimeout(finish, PATIENCE);
    } else if (event.key === " " && run.length > 1 && !(before && before.box instanceof HTMLTextAreaElement)) {
      event.preventDefault();
    }
  }, true);
  window.addEventListener("pageshow", function () { leaving = false; });
})();
