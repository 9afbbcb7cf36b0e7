"use strict";
/* Coats and waits that start a timer. */
{
  const { say, make, all, one, get, set, setText, scheme, status, clock, onChange } = Maulstick;
  const of = document.body.dataset.of ?? one("h1").textContent;
  const idOf = (step, kind) => `${scheme}/${step}/${kind}`;
  const stepOf = row => one(".ticks", row).dataset.step;
  const titleOf = row => one(".step-title, .desk h1", row.closest(".step") ?? document).lastChild.textContent;

  /* All timers but those of some kinds of a step. */
  const others = (step, kinds) =>
    get("timers").filter(timer => timer.scheme !== scheme || timer.step !== step || !kinds.includes(timer.kind));

  /* A timer is started at the step whose coat or drying it counts. */
  const startTimer = (row, { timer: seconds, for: kind }, places = ["coat", kind]) => {
    const step = stepOf(row);
    const title = titleOf(row);
    const ends = Date.now() + Number(seconds) * 1000;
    /* The next coat's wait takes the place of the one before. */
    set("timers", [...others(step, places), { id: idOf(step, kind), scheme, step, title, of, kind, ends, model: 0 }]);
    status(say("timer.started", { step: title, time: clock(ends) }));
  };

  for (const row of all(".row")) {
    for (const fact of all("[data-timer]", row)) {
      const start = ({ currentTarget }) => currentTarget.ariaDisabled === "true" || startTimer(row, fact.dataset);
      fact.append(" ", make("button", { type: "button", className: "plain timer-start", onclick: start },
        say("timer.start"), make("span", { className: "unseen" }, `: ${say("timer.dry")}, ${titleOf(row)}`)));
    }
  }
  /* While a timer runs, its button says until when, and starts no second one. */
  const showStarts = () => {
    for (const button of all(".timer-start")) {
      const id = idOf(stepOf(button.closest(".row")), button.parentElement.dataset.for);
      const timer = get("timers").find(timer => timer.id === id && timer.ends > Date.now());
      setText(button.firstChild, timer ? say("timer.until", { time: clock(timer.ends) }) : say("timer.start"));
      button.ariaDisabled = String(!!timer);
    }
  };
  onChange(name => name === "timers" && showStarts());
  showStarts();

  /* A coat that is ticked starts its wait: one tap with wet hands. */
  for (const coats of all(".coats")) {
    coats.addEventListener("change", ({ target }) => {
      const isLast = all("input", coats).every(box => box === target || box.checked);
      const seconds = isLast ? coats.dataset.dry : coats.dataset.wait;
      const row = coats.parentElement;
      /* A tick that is taken back stops what it started. */
      if (!target.checked) set("timers", others(stepOf(row), [isLast ? "dry" : "coat"]));
      else if (seconds) startTimer(row, { timer: seconds, for: isLast ? "dry" : "coat" }, ["coat", "dry"]);
    });
  }
}
