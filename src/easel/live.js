// Takes a new state of the page into the open one, and shows what was found. Only the live view serves this script.
//
// The page as it came from the guide is kept beside the open one, node by node. Where the next state differs from it,
// and nowhere else, the open page is changed: what scripts and readers did to the rest (ticks, typed text, opened
// sections, focus, the place in the text) stays.
(() => {
  "use strict";

  // Pages that change while they are read are not kept for a place without network.
  window.isLiveView = true;
  const revision = Number(document.currentScript.dataset.revision);
  const place = new WeakMap();
  let last = document.documentElement.cloneNode(true);
  join(last, document.documentElement);

  // Notes which node of the open page stands for which node of the guide's.
  function join(own, open) {
    place.set(own, open);
    own.childNodes.forEach((child, at) => join(child, open.childNodes[at]));
  }

  // The same for two states that are alike.
  function rejoin(was, is) {
    place.set(is, place.get(was));
    was.childNodes.forEach((child, at) => rejoin(child, is.childNodes[at]));
  }

  function patch(was, is) {
    if (was.isEqualNode(is)) {
      rejoin(was, is);
      return;
    }
    const open = place.get(was);
    place.set(is, open);
    if (was.nodeType !== Node.ELEMENT_NODE) {
      open.data = is.data;
      return;
    }
    for (const { name, value } of is.attributes) {
      if (was.getAttribute(name) !== value) open.setAttribute(name, value);
    }
    for (const { name } of was.attributes) {
      if (!is.hasAttribute(name)) open.removeAttribute(name);
    }
    patchChildren([...was.childNodes], [...is.childNodes], open);
  }

  function patchChildren(was, is, open) {
    let before = null;
    while (was.length > 0 && is.length > 0 && was[0].isEqualNode(is[0])) {
      before = place.get(was[0]);
      rejoin(was.shift(), is.shift());
    }
    while (was.length > 0 && is.length > 0 && was.at(-1).isEqualNode(is.at(-1))) rejoin(was.pop(), is.pop());
    for (const node of is) {
      const at = partner(was, node);
      let shown;
      if (at >= 0) {
        patch(was.splice(at, 1)[0], node);
        shown = place.get(node);
      } else {
        shown = document.importNode(node, true);
        join(node, shown);
      }
      // A node that already follows is left where it is: moving it would take its focus away.
      const follows = before ? before.compareDocumentPosition(shown) & Node.DOCUMENT_POSITION_FOLLOWING : at >= 0;
      if (at < 0 || !follows) {
        if (before) before.after(shown);
        else open.prepend(shown);
      }
      before = shown;
    }
    for (const gone of was) place.get(gone).remove();
  }

  // Which of the old nodes becomes this one: one that is just like it, else the one with its id, else the next of its kind.
  function partner(was, node) {
    const alike = was.findIndex((old) => old.isEqualNode(node));
    if (alike >= 0) return alike;
    const same = (old) => old.nodeType === node.nodeType && old.nodeName === node.nodeName;
    return was.findIndex((old) => same(old) && (old.id || "") === (node.id || ""));
  }

  let known = { revision, style: null, frame: null };
  let asking = false;
  let wanted = false;

  // Asks for the page anew; while one answer is on its way, at most one more question waits.
  async function renew() {
    wanted = true;
    if (asking) return;
    asking = true;
    try {
      while (wanted) {
        wanted = false;
        const answer = await fetch(location.href, { cache: "no-cache" });
        if (!(answer.headers.get("content-type") || "").startsWith("text/html")) continue;
        const next = new DOMParser().parseFromString(await answer.text(), "text/html").documentElement;
        const focused = document.activeElement && document.activeElement.id;
        patch(last, next);
        last = next;
        const focus = focused && document.activeElement === document.body && document.getElementById(focused);
        if (focus) focus.focus({ preventScroll: true });
        document.dispatchEvent(new CustomEvent("easel:changed"));
      }
    } catch {
      // The easel has ended; the stream of news says so.
    } finally {
      asking = false;
    }
  }

  function restyle(style) {
    for (const sheet of document.querySelectorAll('link[rel="stylesheet"]')) {
      const address = new URL(sheet.href);
      if (address.pathname.startsWith("/.easel/")) continue;
      address.searchParams.set("style", style);
      const fresh = sheet.cloneNode();
      fresh.href = address.href;
      // The old one goes when the new one has come, so that nothing flickers. It keeps its place in the notes.
      fresh.addEventListener("load", () => {
        sheet.href = address.href;
        sheet.addEventListener("load", () => fresh.remove(), { once: true });
      }, { once: true });
      sheet.after(fresh);
    }
  }

  const bar = document.createElement("aside");
  bar.className = "easel-bar";
  bar.setAttribute("aria-label", "Findings");
  bar.setAttribute("aria-live", "polite");
  bar.hidden = true;
  document.body.append(bar);

  function element(name, text, kind) {
    const made = document.createElement(name);
    made.textContent = text;
    if (kind) made.className = kind;
    return made;
  }

  function counted(count, one, many) {
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  }

  function show({ trouble, report }) {
    const { findings, counts } = report;
    const total = [
      ...counted(counts.error, "error", "errors"),
      ...counted(counts.warning, "warning", "warnings"),
      ...counted(counts.note, "note", "notes"),
    ].join(", ");
    const open = bar.querySelector("details")?.open ?? counts.error > 0;
    bar.replaceChildren();
    bar.hidden = !trouble && findings.length === 0;
    bar.dataset.level = trouble || counts.error > 0 ? "error" : counts.warning > 0 ? "warning" : "note";
    if (trouble) bar.append(element("p", `The guide can't be read: ${trouble}. What was read last is shown.`, "easel-trouble"));
    if (findings.length === 0) return;
    const details = document.createElement("details");
    details.open = open;
    details.append(element("summary", total));
    const list = document.createElement("ol");
    for (const finding of findings.slice(0, 100)) {
      const item = document.createElement("li");
      item.append(
        element("strong", finding.level, `easel-level easel-${finding.level}`),
        element("span", finding.message, "easel-message"),
        element("code", `${finding.file}:${finding.line}:${finding.column}`, "easel-place"),
        element("span", finding.mend, "easel-mend"),
      );
      item.title = finding.why;
      list.append(item);
    }
    details.append(list);
    if (findings.length > 100) details.append(element("p", `and ${findings.length - 100} more, in the terminal`));
    bar.append(details);
  }

  // A browser holds few connections to one host, so only a page that is looked at listens. What it missed is told by the
  // first message when it listens again.
  let news = null;
  function listen() {
    if (document.hidden) {
      news?.close();
      news = null;
      return;
    }
    if (news) return;
    news = new EventSource("/.easel/news");
    news.addEventListener("message", hear);
    news.addEventListener("error", ended);
  }

  function hear({ data }) {
    const now = JSON.parse(data);
    if (known.frame !== null && known.frame !== now.frame) {
      location.reload();
      return;
    }
    if (known.style !== null && known.style !== now.style) restyle(now.style);
    if (known.revision !== now.revision) renew();
    known = now;
    show(now);
  }

  function ended() {
    bar.hidden = false;
    bar.dataset.level = "error";
    bar.replaceChildren(element("p", "The easel has ended. This page no longer follows the guide.", "easel-trouble"));
    known = { revision: -1, style: known.style, frame: known.frame };
  }

  listen();
  document.addEventListener("visibilitychange", listen);
  addEventListener("pagehide", () => news?.close());
})();
