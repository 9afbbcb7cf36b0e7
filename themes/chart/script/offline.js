"use strict";
/* Keeps the scheme that is being read for a place without network, where the guide comes from a web host.
   A reader can let a scheme go, and it is not kept again unasked. The work is done by worker.js. */
{
  const { root, scheme, say, make, one, get, change } = Maulstick;
  const line = one(".offline");
  const shelf = navigator.serviceWorker;

  const ask = (worker, question) => new Promise(answer => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = event => answer(event.data);
    worker.postMessage(question, [port2]);
  });
  const showLine = (words, isKept) => {
    if (!line) return;
    one("[data-offline]", line).textContent = say(words);
    one("[data-keep]", line).hidden = isKept !== false;
    one("[data-drop]", line).hidden = isKept !== true;
    line.hidden = false;
  };
  const isDropped = () => get("settings").dropped.includes(scheme);
  const keep = async worker => {
    if (!line) return ask(worker, { keep: scheme });
    showLine("offline.keeping");
    const { kept } = await ask(worker, { keep: scheme });
    return kept ? showLine("offline.kept", true) : showLine("offline.failed", false);
  };
  const choose = (worker, isKept) => {
    change("settings", settings => {
      settings.dropped = settings.dropped.filter(slug => slug !== scheme);
      if (!isKept) settings.dropped.push(scheme);
    });
    if (isKept) return keep(worker);
    showLine("offline.not-kept", false);
    return ask(worker, { drop: scheme });
  };

  /* A newer site has been fetched whole and waits: the reader says when to change over, and then every tab does. */
  let isOffered = false;
  const offer = worker => {
    if (isOffered) return;
    isOffered = true;
    const button = make("button", { type: "button", onclick: () => worker.postMessage({ change: true }) }, say("offline.show"));
    const notice = make("p", { className: "newer", role: "status" }, say("offline.new"), " ", button);
    const bar = one(".bar");
    if (bar) bar.prepend(notice);
    else document.body.append(notice);
  };
  const watch = registration => {
    const arrived = worker => worker?.addEventListener("statechange", () => worker.state === "installed" && shelf.controller && offer(worker));
    if (registration.waiting && shelf.controller) offer(registration.waiting);
    arrived(registration.installing);
    registration.addEventListener("updatefound", () => arrived(registration.installing));
  };

  const begin = async () => {
    const registration = await shelf.register(`${root}worker.js`, { scope: root, updateViaCache: "none" });
    let controller = shelf.controller;
    shelf.addEventListener("controllerchange", () => {
      if (controller) location.reload();
      controller = shelf.controller;
    });
    watch(registration);
    if (navigator.onLine) registration.update().catch(() => {});
    const { active } = await shelf.ready;
    Maulstick.onWorker?.(active, ask);
    if (!scheme) return;
    one("[data-keep]")?.addEventListener("click", () => choose(active, true));
    one("[data-drop]")?.addEventListener("click", () => choose(active, false));
    if (isDropped() || navigator.connection?.saveData) showLine("offline.not-kept", false);
    else await keep(active);
  };
  if (shelf && !self.isLiveView && self.isSecureContext && location.protocol.startsWith("http")) {
    document.head.append(make("link", { rel: "manifest", href: `${root}manifest.webmanifest` }));
    begin().catch(() => {});
  }
}
