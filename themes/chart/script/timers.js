"use strict";
/* Drying timers. A timer is the moment at which it ends; so it outlives a reload, a nap of the device and a change
   of page, and every tab shows the same ones. Nothing makes a noise unless the reader has switched sound on. */
{
  const { say, make, one, get, set, change, mine, status, pageOf, setText, onChange } = Maulstick;
  const language = document.documentElement.lang;
  const bar = make("aside", { className: "timers", "aria-label": say("timer.label"), hidden: true });
  const list = make("ul");
  /* On a telephone one line stands for all: what ends next, and how many there are beside it. */
  const fold = make("button", { type: "button", className: "timers-fold", ariaExpanded: "false", onclick: () => {
    fold.ariaExpanded = String(bar.classList.toggle("timers-open"));
  } }, make("span", { className: "timer-left" }), make("span", { className: "timers-next" }), make("span"));
  bar.append(fold, list);

  const clock = ends => {
    const isToday = new Date(ends).toDateString() === new Date().toDateString();
    const shape = { hour: "2-digit", minute: "2-digit", hourCycle: "h23", ...(isToday ? {} : { weekday: "short" }) };
    return new Intl.DateTimeFormat(language, shape).format(ends);
  };
  const left = ends => {
    const seconds = Math.max(0, Math.ceil((ends - Date.now()) / 1000));
    const [hours, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
    const two = number => String(number).padStart(2, "0");
    /* What takes hours is told by the clock, without seconds. */
    return hours ? say("timer.until", { time: clock(ends) }) : `${minutes}:${two(rest)}`;
  };
  const isOver = timer => timer.ends <= Date.now();
  const leftOf = timer => (isOver(timer) ? "✓" : left(timer.ends));
  const inOrder = () => get("timers").sort((a, b) => a.ends - b.ends);
  const alter = (id, how) => change("timers", timers => timers.filter(timer => timer.id === id).forEach(how));

  /* ---- Sound, only when asked for ---- */
  let sound = null;
  const ready = () => {
    sound ??= new AudioContext();
    sound.resume();
  };
  const strike = (at, pitch) => {
    const [tone, loud] = [sound.createOscillator(), sound.createGain()];
    tone.frequency.value = pitch;
    loud.gain.setValueAtTime(0.25, at);
    loud.gain.exponentialRampToValueAtTime(0.001, at + 0.9);
    tone.connect(loud).connect(sound.destination);
    tone.start(at);
    tone.stop(at + 1);
  };
  const ring = () => {
    if (!get("settings").sound || sound?.state !== "running") return;
    [0, 0.35, 0.7].forEach((later, at) => strike(sound.currentTime + later, [660, 880, 660][at]));
  };
  const soundButton = make("button", { type: "button", className: "plain", textContent: say("timer.sound"), onclick: () => {
    const isOn = !get("settings").sound;
    change("settings", settings => { settings.sound = isOn; });
    if (!isOn) return;
    ready();
    strike(sound.currentTime, 880);
  } });
  bar.append(make("p", { className: "timers-ask" }, soundButton));
  const showSettings = () => soundButton.setAttribute("aria-pressed", get("settings").sound);
  /* After a reload a browser stays silent until the page is touched; any touch will do. */
  addEventListener("pointerdown", () => get("settings").sound && ready());
  addEventListener("keydown", () => get("settings").sound && ready());

  const announce = timer => {
    status(say("timer.ended", { step: timer.title }));
    ring();
  };

  /* ---- The bar ---- */
  const modelChoice = timer => {
    const { models = 1 } = get(`scheme ${timer.scheme}`);
    if (models < 2) return "";
    const options = Array.from({ length: models }, (_, at) => at + 1).map(model =>
      make("option", { value: model, selected: timer.model === model }, say("ticks.model", { model })));
    const choice = make("select", { onchange: () => alter(timer.id, one => { one.model = Number(choice.value); }) },
      make("option", { value: 0 }, say("timer.all")), ...options);
    return make("label", { className: "timer-model" }, make("span", { className: "unseen" }, say("timer.model")), choice);
  };
  const line = timer => {
    const stop = make("button", { type: "button", onclick: () => {
      set("timers", get("timers").filter(other => other.id !== timer.id));
      (one("button", list) ?? one("[data-timer] button"))?.focus();
    } });
    return make("li", { className: "timer", id: `timer_${timer.id}` },
      make("span", { className: "timer-left", role: "timer" }),
      make("span", { className: "timer-name" },
        make("a", { href: pageOf(timer.scheme, timer.step) }, timer.title), " ",
        make("span", { className: "timer-what" }, say(timer.kind === "coat" ? "timer.coat" : "timer.dry")), " ",
        make("span", { className: "timer-until" }), " ", make("span", { className: "timer-of" }, timer.of ?? "")),
      modelChoice(timer), stop);
  };
  let laid = "";
  const layOut = () => {
    const timers = inOrder();
    const models = timers.map(timer => `${timer.id} ${timer.ends} ${timer.model} ${get(`scheme ${timer.scheme}`).models}`);
    if (laid === models.join()) return;
    laid = models.join();
    list.replaceChildren(...timers.map(line));
    bar.hidden = !timers.length;
    document.documentElement.classList.toggle("has-timers", timers.length > 0);
    tick();
  };
  const tick = () => {
    const timers = inOrder();
    const [next] = timers;
    if (next) {
      const more = timers.length - 1;
      [leftOf(next), `${next.title} · ${next.of ?? ""}`, more ? `+${more}` : ""].forEach((text, at) => setText(fold.children[at], text));
      fold.classList.toggle("timer-over", isOver(next));
    }
    for (const timer of timers) {
      const shown = document.getElementById(`timer_${timer.id}`);
      if (!shown) continue;
      const over = isOver(timer);
      shown.classList.toggle("timer-over", over);
      setText(one(".timer-left", shown), leftOf(timer));
      const isLong = timer.ends - Date.now() >= 3600e3;
      shown.classList.toggle("timer-long", isLong);
      setText(one(".timer-until", shown), isLong ? "" : say(over ? "timer.over" : "timer.until", { time: clock(timer.ends) }));
      setText(one("button", shown), say(over ? "timer.away" : "timer.stop"));
      one("button", shown).ariaLabel = `${one("button", shown).textContent}: ${timer.title}`;
      if (over && !timer.told) {
        alter(timer.id, one => { one.told = true; });
        announce(timer);
      }
    }
  };

  Maulstick.clock = clock;

  const foot = one(".bar");
  if (foot) foot.prepend(bar);
  else document.body.append(bar);
  onChange(name => {
    if (name === "timers" || name === mine) layOut();
    if (name === "settings") showSettings();
  });
  layOut();
  showSettings();
  setInterval(tick, 500);
  document.addEventListener("visibilitychange", () => !document.hidden && tick());
}
