"use strict";
/* Coats and waits that start a timer. */
{
  const { say, make, all, get, set, scheme, status, clock } = Maulstick;

  /* All timers but those of some kinds of a step. */
  const others = (step, kinds) =>
    get("timers").filter(timer => timer.scheme !== scheme || timer.step !== step || !kinds.includes(timer.kind));

  /* A timer is started at the step whose coat or drying it counts. */
  const startTimer = (facts, { timer: seconds, for: kind }, places = ["coat"]) => {
    const { timers: step, title } = facts.dataset;
    const ends = Date.now() + Number(seconds) * 1000;
    const id = `${Date.now().toString(36)}${Math.floor(Math.random() * 1e6).toString(36)}`;
    /* The next coat's wait takes the place of the one before. */
    set("timers", [...others(step, places), { id, scheme, step, title, kind, ends, model: 0 }]);
    status(say("timer.started", { step: title, time: clock(ends) }));
  };

  for (const facts of all("[data-timers]")) {
    for (const fact of all("[data-timer]", facts)) {
      const what = say(fact.dataset.for === "coat" ? "timer.coat" : "timer.dry");
      fact.append(" ", make("button", { type: "button", className: "plain timer-start", onclick: () => startTimer(facts, fact.dataset) },
        say("timer.start"), make("span", { className: "unseen" }, `: ${what}, ${facts.dataset.title}`)));
    }
  }

  /* A coat that is ticked starts its wait: one tap with wet hands. */
  for (const coats of all(".coats")) {
    coats.addEventListener("change", ({ target }) => {
      const isLast = all("input", coats).every(box => box === target || box.checked);
      const seconds = isLast ? coats.dataset.dry : coats.dataset.wait;
      const facts = coats.closest("[data-timers]");
      /* A tick that is taken back stops what it started. */
      if (!target.checked) set("timers", others(facts.dataset.timers, [isLast ? "dry" : "coat"]));
      else if (seconds) startTimer(facts, { timer: seconds, for: isLast ? "dry" : "coat" }, ["coat", "dry"]);
    });
  }
}
