"use strict";
/* The paints narrowed down: to those that the reader has, to a kind, to a colour. */
{
  const { all, one, get, onChange, show } = Maulstick;
  const rack = one(".rack");
  const [mine, kind, hue] = ["mine", "kind", "hue"].map(name => one(`[name=${name}]`, rack));
  const sift = () => {
    const have = get("have");
    const fits = (box, paint) => !box?.value || box.value === paint;
    for (const paint of all(".chart-paint")) {
      const owned = !mine.checked || have.includes(one("[data-have]", paint).dataset.have);
      paint.hidden = !(owned && fits(kind, paint.dataset.kind) && fits(hue, paint.dataset.hue));
    }
    for (const part of all(".part")) part.hidden = !one(".chart-paint:not([hidden])", part);
    const [shown, known] = [all(".chart-paint:not([hidden])").length, all(".chart-paint").length];
    const output = one("output", rack);
    output.textContent = shown === known ? "" : shown ? `${shown} / ${known}` : output.dataset.none;
  };
  rack.onchange = sift;
  onChange(name => name === "have" && sift());
  sift();
  show(".rack");
}
