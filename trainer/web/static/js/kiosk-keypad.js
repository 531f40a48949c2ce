// The keypad writes into the box that was touched last, at once. Without this script each of its keys is sent.
(function () {
  "use strict";

  const pad = document.querySelector("[data-keypad]");
  if (!pad) {
    return;
  }
  const form = pad.closest("form");
  const boxes = Array.from(form.elements).filter(function (one) {
    return one.classList.contains("typed");
  });
  let box = boxes.find(function (one) { return one === document.activeElement; }) || boxes.find(function (one) { return one.value === ""; }) || boxes[boxes.length - 1];

  let byHand = null; // the box that was last typed into on a keyboard

  function choose(one) {
    box = one;
    boxes.forEach(function (each) { each.classList.toggle("now", each === one); });
  }

  boxes.forEach(function (one) {
    one.inputMode = "none"; // no second keyboard over this one
    one.addEventListener("focus", function () { choose(one); });
    one.addEventListener("input", changed);
    one.addEventListener("keydown", function (event) { byHand = event.key.length === 1 ? one : byHand; });
  });
  choose(box);

  function changed() {
    form.classList.add("changed");
  }

  // Whoever typed a whole number on a keyboard and turns to the keypad means the PIN below which it stands.
  function forPin(key) {
    const pin = boxes.find(function (one) { return one.type === "password"; });
    if (pin && box.hasAttribute("data-badge") && byHand === box && box.value !== "" && /^[0-9]$/.test(key)) {
      pin.focus();
    }
  }

  function press(key) {
    forPin(key);
    if (key === "clear") {
      box.value = "";
    } else if (key === "erase") {
      box.value = box.value.slice(0, -1);
    } else if (box.value.length < box.maxLength) {
      box.value += key;
    }
    box.dispatchEvent(new Event("input", { bubbles: true }));
  }

  pad.addEventListener("click", function (event) {
    const key = event.target.closest("button[name=press]");
    if (key) {
      event.preventDefault();
      press(key.value);
    }
  });

  form.addEventListener("change", function (event) {
    if (event.target.name === "unit") {
      changed();
    }
  });

  let sent = false;
  form.addEventListener("submit", function (event) {
    if (sent) {
      event.preventDefault();
    }
    sent = true;
  });
  window.addEventListener("pageshow", function () { sent = false; });
})();
