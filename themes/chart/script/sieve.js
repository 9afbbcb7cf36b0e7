"use strict";
/* The index narrowed down. Boxes of one kind widen the choice, kinds narrow it; of hours the most counts. What would leave
   nothing can't be chosen. The choice stands in the address, so that it can be sent and comes back with the back button. */
{
  const { say, all, one, show, status } = Maulstick;
  const sieve = one(".sieve");
  const cards = all(".card");
  const clear = one("[data-clear]", sieve ?? document);
  const boxes = sieve ? all("input", sieve) : [];

  const chosen = () => {
    const choice = new Map();
    for (const { name, value } of boxes.filter(box => box.checked)) choice.set(name, [...(choice.get(name) ?? []), value]);
    return choice;
  };
  /* The words of a card, taken apart when they are first asked for: there may be ten thousand cards. */
  const known = new Map();
  const wordsOf = card => {
    if (!known.has(card)) known.set(card, new Set(card.dataset.words.split("\n")));
    return known.get(card);
  };
  const fits = (card, choice) => [...choice].every(([name, values]) => {
    if (name === "word") return values.some(word => wordsOf(card).has(word));
    if (name === "level") return values.includes(card.dataset.level);
    return card.dataset.seconds > 0 && card.dataset.seconds <= Math.max(...values);
  });
  const sift = () => {
    const choice = chosen();
    for (const card of cards) card.hidden = !fits(card, choice);
    for (const box of boxes) {
      const alone = new Map(choice).set(box.name, [box.value]);
      box.disabled = !box.checked && !cards.some(card => fits(card, alone));
    }
    for (const group of all(".cards")) {
      const isEmpty = all(".card", group).every(card => card.hidden);
      group.hidden = isEmpty;
      const title = group.previousElementSibling;
      if (title?.matches(".group")) title.hidden = isEmpty;
    }
    const shown = cards.filter(card => !card.hidden).length;
    one("[data-nothing]").hidden = shown > 0;
    one("[data-count]", sieve).textContent = choice.size ? say("sieve.shown", { shown, all: cards.length }) : "";
    clear.hidden = !choice.size;
  };
  const read = () => {
    const asked = new URLSearchParams(location.hash.slice(1));
    for (const box of boxes) box.checked = asked.getAll(box.name).includes(box.value);
    sift();
  };
  const write = () => {
    const asked = new URLSearchParams(boxes.filter(box => box.checked).map(({ name, value }) => [name, value]));
    history.replaceState(null, "", String(asked) ? `#${asked}` : location.pathname + location.search);
    sift();
    status(one("[data-count]", sieve).textContent || say("sieve.shown", { shown: cards.length, all: cards.length }));
  };
  if (sieve) {
    sieve.onchange = write;
    clear.onclick = () => {
      boxes.forEach(box => { box.checked = false; });
      write();
      boxes[0].focus();
    };
    addEventListener("hashchange", read);
    read();
    sieve.open = boxes.some(box => box.checked);
    show(".sieve");
  }
}
