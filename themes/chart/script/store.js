"use strict";
/* What a reader marks, kept in this browser alone: one entry a scheme, one each for paints, timers and settings, named
   after the guide's place. What is read back is cleaned first. */

const Maulstick = (() => {
  const { root: way, guide, scheme = "", marks = "" } = document.body.dataset;
  const mine = `scheme ${marks}`;
  const root = new URL(way || "./", location.href).href;
  const place = `maulstick ${root} `;
  const words = self.maulstickWords ?? {};
  const { figures } = words;
  const lost = new Map();
  const listeners = [];

  const filled = (text, fill) => Object.entries(fill).reduce((text, [name, value]) => text.replaceAll(`{${name}}`, value), text);
  const say = (key, fill = {}) => filled(words[key] ?? key, fill);

  /* Words for a number: the singular holds a 1, the plural a 2 where it goes. */
  const numbers = new Intl.PluralRules(document.documentElement.lang || "en");
  const plural = (key, count, fill = {}) =>
    filled(say(`${key}.${numbers.select(count) === "one" ? "one" : "many"}`).replace(/[12]/, count), fill);

  /* An element with properties and children; texts never become markup. */
  const make = (tag, properties = {}, ...children) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(properties)) {
      if (name in element) element[name] = value;
      else element.setAttribute(name, value);
    }
    element.append(...children);
    return element;
  };

  const isObject = value => value !== null && typeof value === "object" && !Array.isArray(value);
  const texts = value => (Array.isArray(value) ? [...new Set(value.filter(one => typeof one === "string"))] : []);
  const whole = (value, most) => (Number.isInteger(value) && value >= 1 && value <= most ? value : 1);
  const clean = {
    have: texts,
    scheme: value => {
      const { models, done, boxes } = isObject(value) ? value : {};
      const steps = Object.entries(isObject(done) ? done : {});
      const numbers = list => (Array.isArray(list) ? [...new Set(list.filter(one => one === 0 || whole(one, 999) === one))] : []);
      const kept = steps.map(([step, list]) => [step, numbers(list)]).filter(([, list]) => list.length);
      return { ...(whole(models, 999) === models && { models }), done: Object.fromEntries(kept), boxes: texts(boxes) };
    },
    seen: value => (isObject(value) ? value : {}),
    timers: value => (Array.isArray(value) ? value : []).filter(one => isObject(one) && Number.isFinite(one.ends)
      && ["id", "scheme", "step", "title", "kind"].every(name => typeof one[name] === "string")),
    settings: value => {
      const { sound, asleep, larger, dropped } = isObject(value) ? value : {};
      return { sound: sound === true, asleep: asleep === true, larger: larger === true, dropped: texts(dropped) };
    },
  };
  const cleaned = (name, value) => clean[name.startsWith("scheme ") ? "scheme" : name](value);

  const get = name => {
    try {
      return cleaned(name, JSON.parse(lost.get(name) ?? localStorage.getItem(place + name)));
    } catch {
      return cleaned(name, null);
    }
  };
  const tell = name => listeners.forEach(listener => listener(name));
  const set = (name, value) => {
    const text = JSON.stringify(value);
    try {
      localStorage.setItem(place + name, text);
    } catch {
      /* What can't be kept still ticks while the page is open. */
      if (!lost.size) status(say("store.lost"));
      lost.set(name, text);
    }
    tell(name);
  };
  /* Reads, changes and writes in one go: no other tab can come between. */
  const change = (name, how) => {
    const value = get(name);
    how(value);
    set(name, value);
  };
  const schemes = () => {
    try {
      const start = `${place}scheme `;
      return Object.keys(localStorage).filter(key => key.startsWith(start)).map(key => key.slice(start.length));
    } catch {
      return [];
    }
  };
  const forget = () => {
    for (const name of ["have", "seen", "timers", ...schemes().map(slug => `scheme ${slug}`)]) {
      try {
        localStorage.removeItem(place + name);
      } catch { /* Nothing was kept. */ }
      lost.delete(name);
      tell(name);
    }
  };
  const tellAll = () => ["have", "timers", "settings", mine].forEach(tell);
  addEventListener("storage", event => {
    if (event.key === null) tellAll();
    else if (event.key.startsWith(place)) tell(event.key.slice(place.length));
  });
  /* A page that comes back from the browser's memory has missed what other tabs did. */
  addEventListener("pageshow", event => event.persisted && tellAll());

  /* One quiet line that screen readers speak. */
  const voice = make("p", { className: "unseen", role: "status" });
  document.body.append(voice);
  const status = text => {
    voice.textContent = "";
    setTimeout(() => { voice.textContent = text; }, 50);
  };

  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const one = (selector, within = document) => within.querySelector(selector);
  /* An open menu closes by Escape, and when the focus goes on. */
  const more = one(".head-more");
  const close = () => { more.open = false; };
  more?.addEventListener("keydown", ({ key }) => key === "Escape" && (close(), one("summary", more).focus()));
  more?.addEventListener("focusout", ({ relatedTarget: on }) => on && !more.contains(on) && close());
  /* What stands already would be read out again. */
  const setText = (element, text) => { if (element && element.textContent !== text) element.textContent = text; };
  const show = selector => all(selector).forEach(element => { element.hidden = false; });
  /* As many as the page is for, until the reader says a number. */
  const state = () => ({ models: Number(one("input[data-models]")?.defaultValue ?? document.body.dataset.usual) || 1, ...get(mine) });
  const pageOf = (slug, step) =>
    `${root}schemes/${encodeURIComponent(slug)}${step ? `/${encodeURIComponent(step)}` : ""}.html`;

  return {
    root, guide, scheme, mine, figures, say, plural, make, all, one, show, setText, status, pageOf,
    get, set, change, state, cleaned, schemes, forget, onChange: listener => listeners.push(listener),
  };
})();
