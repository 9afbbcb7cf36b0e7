"use strict";
/* An army's evenings: tonight's opens by its button, all of them on paper. */
{
  const { all, one } = Maulstick;
  const evenings = all(".plan-evening");
  const now = new Date();
  const two = number => String(number).padStart(2, "0");
  const today = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  const next = evenings.find(evening => evening.dataset.day >= today) ?? evenings.at(-1);
  const tonight = one("[data-tonight]");
  if (tonight && next) {
    tonight.hash = next.id;
    /* On any other day the button names the evening that it leads to. */
    const number = evenings.indexOf(next) + 1;
    const words = number > 1 ? tonight.dataset.goOn : tonight.dataset.start;
    const date = one("h3", next).firstChild.textContent.trim();
    if (next.dataset.day !== today) tonight.textContent = words.replace("{number}", number).replace("{date}", date);
  }
  const reveal = () => {
    const asked = evenings.find(evening => `#${evening.id}` === location.hash);
    if (!asked) return;
    one("details", asked).open = true;
    asked.scrollIntoView();
  };
  addEventListener("hashchange", reveal);
  /* Chosen again, the address stays the same. */
  for (const link of all(`[data-tonight], .plan-day a`)) link.addEventListener("click", () => setTimeout(reveal));
  reveal();
  let closed = [];
  addEventListener("beforeprint", () => {
    closed = all(".plan-evening details:not([open])");
    closed.forEach(details => { details.open = true; });
  });
  addEventListener("afterprint", () => closed.forEach(details => { details.open = false; }));
}
