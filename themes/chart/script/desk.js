"use strict";
/* One step at the desk: the screen stays awake, keys and swipes turn to the step before and the next. */
{
  const { one, show, get, change, status, say, onChange } = Maulstick;
  /* Where one reads from the right, the next page lies at the left. */
  const [left, right] = document.dir === "rtl" ? ["next", "prev"] : ["prev", "next"];
  const turn = rel => one(`.thumbs a[rel="${rel}"]`)?.click();

  const isTyping = target => target.closest("input:not([type=checkbox]), textarea, select, [contenteditable]");
  addEventListener("keydown", event => {
    /* A key that is held a moment too long turns one page, not three. */
    if (event.defaultPrevented || event.repeat || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (!isTyping(event.target) && !scrolls(event.target)) turn({ ArrowLeft: left, ArrowRight: right }[event.key]);
  });

  /* Whether something around an element moves sideways by itself, as a wide table does. */
  const scrolls = element => {
    for (let at = element; at && at !== document.body; at = at.parentElement) {
      const { overflowX } = getComputedStyle(at);
      if (at.scrollWidth > at.clientWidth && (overflowX === "auto" || overflowX === "scroll")) return true;
    }
    return false;
  };
  /* A swipe is long, level and quick, and does not begin at the rim, where the telephone's own gesture begins. */
  const RIM = 24, LONG = 70, QUICK = 700;
  let from = null;
  addEventListener("touchstart", event => {
    const [touch] = event.touches;
    const atRim = touch.clientX < RIM || touch.clientX > innerWidth - RIM;
    const usable = event.touches.length === 1 && !atRim && !(visualViewport?.scale > 1.05) && !isTyping(event.target) && !scrolls(event.target);
    from = usable ? { x: touch.clientX, y: touch.clientY, at: event.timeStamp } : null;
  }, { passive: true });
  addEventListener("touchend", event => {
    const [touch] = event.changedTouches;
    if (!from || event.timeStamp - from.at > QUICK || String(getSelection())) return;
    const across = touch.clientX - from.x;
    if (Math.abs(across) > LONG && Math.abs(touch.clientY - from.y) < Math.abs(across) / 2) turn(across > 0 ? left : right);
    from = null;
  }, { passive: true });
  addEventListener("touchcancel", () => { from = null; });

  /* The strip shows the step that one is at. */
  const [strip, here] = [one(".strip"), one(".strip-here")];
  if (here) strip.scrollLeft = here.offsetLeft - (strip.clientWidth - here.offsetWidth) / 2;

  const box = one("[data-awake]");
  let lock = null;
  const wake = async () => {
    if (get("settings").asleep || document.visibilityState !== "visible" || lock) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
    } catch { /* A weak battery may forbid it; the next look at the page asks again. */ }
  };
  const rest = () => lock?.release();
  if (navigator.wakeLock) {
    box.checked = !get("settings").asleep;
    box.onchange = () => {
      change("settings", settings => { settings.asleep = !box.checked; });
      if (box.checked) wake().then(() => lock && status(say("desk.is-awake")));
      else rest();
    };
    document.addEventListener("visibilitychange", wake);
    addEventListener("pagehide", rest);
    addEventListener("pageshow", wake);
    wake();
    show(".awake");
  }
  /* Larger letters, for those who stand further away. */
  const larger = one("[data-larger]");
  const size = () => document.body.classList.toggle("desk-larger", larger.checked = get("settings").larger);
  larger.onchange = () => change("settings", settings => { settings.larger = larger.checked; });
  onChange(name => name === "settings" && size());
  size();
  show(".desk-help");
}
