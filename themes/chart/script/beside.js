"use strict";
/* A photo and its prediction, laid over each other: a slide goes from one to the other. */
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
