"use strict";
/* A slide leads from a photo to its prediction. */
{
  const { all, one } = Maulstick;
  for (const beside of all(".beside")) {
    const slide = one("input", beside);
    const move = () => beside.style.setProperty("--at", `${slide.value}%`);
    slide.addEventListener("input", move);
    slide.parentElement.hidden = false;
    beside.classList.add("beside-over");
    move();
  }
}
