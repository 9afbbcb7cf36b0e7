"use strict";
/* Ticks: steps that are done, model by model, and what of it the strip of steps shows. */
{
  const { say, make, all, one, show, get, state, change, mine, setText, onChange } = Maulstick;
  /* So many models get a box each; of more one counts. */
  const MOST_BOXES = 40;

  const upTo = count => Array.from({ length: count }, (_, at) => at + 1);
  /* A 0 stands for all models, however many there are: what was ticked as a whole stays so when their number changes.
     So does what was ticked before anybody chose a number; whoever ticks single models chooses the one that is shown. */
  const known = (marks, step, models) => {
    const list = marks.done[step] ?? [];
    return list.includes(0) || (list.length && !get(mine).models) ? upTo(models) : list;
  };
  const doneOf = (marks, step, models) => known(marks, step, models).filter(model => model <= models);
  const setDone = (step, how) => change(mine, marks => {
    marks.models ??= state().models;
    marks.done[step] = how(known(marks, step, marks.models)).sort((a, b) => a - b);
  });
  const modelsOf = (field, { models }) => ("together" in field.dataset ? 1 : models);

  const modelBox = (step, model) => make("label", { className: "ticks-model" },
    make("input", { type: "checkbox", value: model, ariaLabel: say("ticks.model", { model }),
      onchange: ({ target }) => setDone(step, done => [...done.filter(other => other !== model), ...(target.checked ? [model] : [])]) }),
    make("span", {}, model));
  const counter = (step, models) => make("div", { className: "models" },
    make("input", { type: "number", min: 0, max: models, ariaLabel: say("ticks.number"), onchange: event => {
      const count = Math.min(models, Math.max(0, Math.round(Number(event.target.value) || 0)));
      setDone(step, () => upTo(count));
    } }));

  /* Boxes for the models of one step, made anew only when their number changes, so that focus stays where it is. */
  const layOut = (field, models) => {
    if (field.dataset.models === String(models)) return;
    field.dataset.models = models;
    one(".ticks-all", field).nextElementSibling?.remove();
    if (models === 1) return;
    const step = field.dataset.step;
    const each = models > MOST_BOXES ? [counter(step, models)] : upTo(models).map(model => modelBox(step, model));
    field.append(make("div", { className: "ticks-part" }, make("span", { className: "rim" }, say("ticks.number")), make("div", { className: "ticks-each" }, ...each)));
  };
  const showTicks = (field, marks) => {
    const models = modelsOf(field, marks);
    const done = doneOf(marks, field.dataset.step, models);
    layOut(field, models);
    const whole = one(".ticks-all input", field);
    whole.checked = done.length === models;
    whole.indeterminate = done.length > 0 && done.length < models;
    one(".ticks-all span", field).textContent =
      whole.indeterminate ? say("ticks.some", { done: done.length, all: models }) : say("ticks.done");
    for (const box of all(".ticks-model input", field)) box.checked = done.includes(Number(box.value));
    const count = one(".ticks-each .models input", field);
    if (count) count.value = done.length;
    field.closest(".step")?.classList.toggle("step-done", whole.checked);
  };
  const fields = all(".ticks");
  for (const field of fields) {
    one(".ticks-all input", field).onchange = ({ target }) => change(mine, marks => {
      marks.done[field.dataset.step] = target.checked ? [0, ...upTo(modelsOf(field, state()))] : [];
    });
  }

  /* A tick where a step is done for all models that it is counted by. */
  const showStrip = (step, marks) => {
    const models = modelsOf(step, marks);
    one(".strip-tick", step)?.remove();
    if (doneOf(marks, step.dataset.step, models).length < models) return;
    one("a", step).append(make("span", { className: "strip-tick" }, "✓", make("span", { className: "unseen" }, ` ${say("ticks.done")}`)));
  };
  const showAll = () => {
    const marks = state();
    fields.forEach(field => showTicks(field, marks));
    all(".strip-step").forEach(step => showStrip(step, marks));
    if (!clear) return;
    const done = fields.filter(field => one(".ticks-all input", field).checked).length;
    setText(one("[data-progress]"), say("ticks.count", { done, all: fields.length }));
    clear.hidden = !Object.keys(marks.done).length && !marks.boxes.length;
  };
  const clear = one(".progress [data-clear]");
  if (clear) {
    clear.onclick = () => {
      if (!confirm(say("ticks.sure"))) return;
      change(mine, marks => { marks.done = {}; marks.boxes = []; });
      one("input[data-models]")?.focus();
    };
  }
  /* The strip shows which step is being read. */
  const strip = one(".strip");
  const follow = step => {
    const here = one(`.strip-step[data-step="${CSS.escape(step.id)}"]`, strip);
    if (!here) return;
    all(".strip-reading", strip).forEach(other => other.classList.remove("strip-reading"));
    here.classList.add("strip-reading");
    strip.scrollLeft = here.offsetLeft - (strip.clientWidth - here.offsetWidth) / 2;
  };
  if (strip && !one(".strip-here")) {
    const read = new IntersectionObserver(seen => seen.filter(one => one.isIntersecting).forEach(({ target }) => follow(target)),
      { rootMargin: "-20% 0px -75% 0px" });
    all(".step").forEach(step => read.observe(step));
  }
  onChange(name => name === mine && showAll());
  show(".ticks, .progress");
  showAll();
  /* Of many models the first that is not done is in sight. */
  for (const row of all(".ticks-each:has(:checked)")) {
    row.scrollLeft = one("label:has(:not(:checked))", row)?.offsetLeft ?? 0;
  }
}
