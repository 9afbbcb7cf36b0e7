"use strict";
/* What changed in a scheme since the reader was here, until it is read; who comes for the first time has nothing to unlearn. */
{
  const { all, one, get, change, scheme } = Maulstick;
  const news = one(".news");
  const seen = get("seen")[scheme];
  const items = all(".news [data-day]");
  const note = () => change("seen", days => { days[scheme] = items[0]?.dataset.day ?? "-"; });
  for (const item of items) item.hidden = !(seen && item.dataset.day > seen);
  if (!seen) note();
  if (news) {
    news.hidden = items.every(item => item.hidden);
    one("button", news).onclick = () => {
      note();
      news.hidden = true;
    };
  }
}
