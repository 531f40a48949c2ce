// A place pressed in the drawing presses its row. Without script the rows alone are pressed.
(function () {
  "use strict";
  const drawing = document.querySelector("[data-places]");
  if (!drawing) {
    return;
  }
  drawing.classList.add("pressable");
  drawing.addEventListener("click", function (event) {
    const place = event.target.closest("[data-place]");
    const rows = place ? document.querySelectorAll("button.part-row") : [];
    rows.forEach(function (row) {
      if (row.value === place.dataset.place) {
        row.click();
      }
    });
  });
})();
