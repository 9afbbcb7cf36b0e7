"use strict";
/* Marks: how many models there are, paints that are at home, single boxes. */
{
  const { say, all, one, show, get, change, state, mine, onChange } = Maulstick;
  /* The field at the head stands beside every mix too, so that nobody scrolls up. */
  const asked = one(".progress .models");
  for (const mix of asked ? all(".mix-amounts") : []) {
    const beside = asked.cloneNode(true);
    const name = one("span", beside).textContent = say("shopping.models");
    one("input", beside).ariaLabel = `${name}: ${one("h3", mix.closest(".step, .pot")).lastChild.textContent}`;
    one(".mix-cup, .mix-need", mix).before(beside);
  }
  const fields = all("input[data-models]");

  /* Boxes in a text are known by their step and their words. */
  for (const box of all(".telling label > input")) {
    const step = box.closest(".step")?.id ?? one(".ticks")?.dataset.step ?? "";
    box.dataset.box = `list ${step} ${box.parentElement.textContent.trim()}`;
  }
  for (const coats of all(".coats")) {
    all("input", coats).forEach((box, at) => { box.dataset.box = `coat ${one(".ticks", coats.parentElement).dataset.step} ${at + 1}`; });
  }
  const showMarks = () => {
    const { models, boxes } = state();
    for (const field of fields) if (field !== document.activeElement) field.value = models;
    for (const box of all("[data-box]")) box.checked = boxes.includes(box.dataset.box);
  };
  const showHave = () => {
    const have = get("have");
    for (const box of all("[data-have]")) box.checked = box.defaultChecked || have.includes(box.dataset.have);
  };

  for (const field of fields) {
    field.oninput = () => {
      const models = Number(field.value);
      if (Number.isInteger(models) && models >= 1 && models <= 999) change(mine, marks => { marks.models = models; });
    };
    /* A tap takes the old number away with the first figure that is typed. */
    field.onfocus = () => field.select();
    field.onblur = () => { field.value = state().models; };
  }
  const put = (list, value, isIn) => {
    const at = list.indexOf(value);
    if (isIn && at < 0) list.push(value);
    if (!isIn && at >= 0) list.splice(at, 1);
  };
  for (const box of all("[data-box]")) {
    box.onchange = () => change(mine, marks => put(marks.boxes, box.dataset.box, box.checked));
  }
  for (const box of all("[data-have]")) {
    box.onchange = () => change("have", have => put(have, box.dataset.have, box.checked));
  }
  onChange(name => (name === "have" ? showHave() : name === mine && showMarks()));
  showMarks();
  showHave();
  show(".models, .have");
}
