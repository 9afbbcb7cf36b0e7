"use strict";
/* Coats and waits that start a timer. */
{
  const { say, make, all, one, get, set, setText, scheme, status, clock, onChange } = Maulstick;
  const of = document.body.dataset.of ?? one("h1").textContent;
  const titleOf = facts => one(".step-title", facts.closest(".step") ?? document)?.lastChild.textContent ?? one("h1").lastChild.textContent;

  /* All timers but those of some kinds of a step. */
  const others = (step, kinds) =>
    get("timers").filter(timer => timer.scheme !== scheme || timer.step !== step || !kinds.includes(timer.kind));

  /* A timer is started at the step whose coat or drying it counts. */
  const startTimer = (facts, { timer: seconds, for: kind }, places = ["coat", kind]) => {
    const step = facts.dataset.timers;
    const title = titleOf(facts);
    const ends = Date.now() + Number(seconds) * 1000;
    const id = `${Date.now().toString(36)}${Math.floor(Math.random() * 1e6).toString(36)}`;
    /* The next coat's wait takes the place of the one before. */
    set("timers", [...others(step, places), { id, scheme, step, title, of, kind, ends, model: 0 }]);
    status(say("timer.started", { step: title, time: clock(ends) }));
  };

  /* While a timer runs, its button says until when, and starts no second one. */
  const starts = [];
  for (const facts of all("[data-timers]")) {
    for (const fact of all("[data-timer]", facts)) {
      const { dataset } = fact;
      const running = () => get("timers").find(({ scheme: own, step, kind, ends }) =>
        own === scheme && step === facts.dataset.timers && kind === dataset.for && ends > Date.now());
      const what = say(dataset.for === "coat" ? "timer.coat" : "timer.dry");
      const word = make("span");
      const button = make("button", { type: "button", className: "plain timer-start", onclick: () => running() || startTimer(facts, dataset) },
        word, make("span", { className: "unseen" }, `: ${what}, ${titleOf(facts)}`));
      starts.push(() => {
        const timer = running();
        setText(word, timer ? say("timer.until", { time: clock(timer.ends) }) : say("timer.start"));
        button.ariaDisabled = String(!!timer);
      });
      fact.append(" ", button);
    }
  }
  const showStarts = () => starts.forEach(show => show());
  onChange(name => name === "timers" && showStarts());
  showStarts();

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
