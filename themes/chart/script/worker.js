"use strict";
/* Serves kept schemes without network. One worker is one version of the site: `worker.js` at the root sets the version
   and takes this file in, so a new site is a new worker to the browser. That worker fetches every kept scheme whole,
   checks each file against the hashes of its own version, and waits; it takes over when no page of the old version is
   open or when the reader asks for it, and only then is the old cache thrown away. A page is served from the cache
   with everything that it shows, or from the network with everything that it shows, never from both. */

const VERSION = self.maulstickVersion;
const ROOT = self.registration.scope;
const START = `maulstick ${ROOT} `;
const NAME = START + VERSION;
const LISTS = `${ROOT}data/kept/`;

const urlOf = path => ROOT + path.split("/").map(encodeURIComponent).join("/");
const listOf = slug => urlOf(`data/kept/${slug}.json`);
const bare = url => url.split(/[?#]/)[0];
const hashOf = async bytes => {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...digest].map(byte => byte.toString(16).padStart(2, "0")).join("");
};

/* One file of this version, from an older cache where it has not changed, otherwise from the network. */
const fileOf = async (path, hash, olds) => {
  const url = urlOf(path);
  for (const old of olds) {
    const known = await old.match(url);
    if (known && await hashOf(await known.clone().arrayBuffer()) === hash) return known;
  }
  const answer = await fetch(url, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const bytes = await answer.arrayBuffer();
  if (await hashOf(bytes) !== hash) throw new Error(`${path} is of another version`);
  const headers = { "content-type": answer.headers.get("content-type") ?? "application/octet-stream" };
  return new Response(bytes, { headers });
};

/* Keeps a scheme, all or nothing: every file is there before the first one is put down, and pages come last, because
   a page in the cache is a promise that all it shows is there too. Returns whether the site has such a scheme. */
const keep = async (slug, olds = []) => {
  const answer = await fetch(listOf(slug), { cache: "no-store" });
  if (answer.status === 404) return false;
  const text = await answer.text();
  const { version, files } = JSON.parse(text);
  if (version !== VERSION) throw new Error("the site has another version");
  const cache = await caches.open(NAME);
  const missing = [];
  for (const [path, hash] of Object.entries(files)) {
    if (!await cache.match(urlOf(path))) missing.push([path, await fileOf(path, hash, olds)]);
  }
  const isPage = ([path]) => path.endsWith(".html");
  for (const [path, file] of missing.sort((a, b) => isPage(a) - isPage(b))) await cache.put(urlOf(path), file);
  await cache.put(listOf(slug), new Response(text));
  return true;
};

const slugsIn = async cache => (await cache.keys()).map(request => request.url).filter(url => url.startsWith(LISTS))
  .map(url => decodeURIComponent(url.slice(LISTS.length).replace(/\.json$/, "")));
const filesOf = async (cache, slug) => Object.keys((await (await cache.match(listOf(slug))).json()).files);
const drop = async slug => {
  const cache = await caches.open(NAME);
  if (!await cache.match(listOf(slug))) return;
  const gone = await filesOf(cache, slug);
  await cache.delete(listOf(slug));
  const others = await Promise.all((await slugsIn(cache)).map(other => filesOf(cache, other)));
  const needed = new Set(others.flat());
  /* Pages go first, for the same reason that they come last. */
  const last = path => (path.endsWith(".html") ? 0 : 1);
  for (const path of gone.filter(path => !needed.has(path)).sort((a, b) => last(a) - last(b))) await cache.delete(urlOf(path));
};
const titleOf = async (cache, slug) => {
  const page = await cache.match(urlOf(`schemes/${slug}.html`));
  const [, title] = (await page?.text())?.match(/<h1>([^<&]*)<\/h1>/) ?? [];
  return { slug, title: title ?? slug };
};
const list = async () => {
  const cache = await caches.open(NAME);
  return Promise.all((await slugsIn(cache)).map(slug => titleOf(cache, slug)));
};

const install = async () => {
  const names = (await caches.keys()).filter(name => name.startsWith(START) && name !== NAME);
  const olds = await Promise.all(names.map(name => caches.open(name)));
  const slugs = new Set((await Promise.all(olds.map(slugsIn))).flat());
  /* Where nothing is kept, nothing can be mixed, and there is nothing to wait for. */
  if (!slugs.size) return self.skipWaiting();
  try {
    for (const slug of slugs) await keep(slug, olds);
  } catch (error) {
    await caches.delete(NAME);
    throw error;
  }
};
const activate = async () => {
  const names = await caches.keys();
  await Promise.all(names.filter(name => name.startsWith(START) && name !== NAME).map(name => caches.delete(name)));
};

const page = async request => {
  const cache = await caches.open(NAME);
  const kept = await cache.match(bare(request.url));
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch (error) {
    const device = urlOf("device.html");
    if (await cache.match(device)) return Response.redirect(device, 302);
    throw error;
  }
};
const part = async (request, clientId) => {
  const client = clientId && await self.clients.get(clientId);
  const cache = await caches.open(NAME);
  if (!client || !await cache.match(bare(client.url))) return fetch(request);
  return await cache.match(bare(request.url)) ?? Response.error();
};

self.addEventListener("install", event => event.waitUntil(install()));
self.addEventListener("activate", event => event.waitUntil(activate()));
self.addEventListener("fetch", event => {
  const { request, clientId } = event;
  if (request.method !== "GET" || !request.url.startsWith(ROOT)) return;
  event.respondWith(request.mode === "navigate" ? page(request) : part(request, clientId));
});
self.addEventListener("message", event => {
  const { data, ports: [port] } = event;
  if (data.change) self.skipWaiting();
  if (data.list) event.waitUntil(list().then(slugs => port.postMessage({ slugs })));
  if (data.drop) event.waitUntil(drop(data.drop).then(() => port.postMessage({ kept: false })));
  if (data.keep) {
    const answer = kept => port.postMessage({ kept });
    event.waitUntil(keep(data.keep).then(answer, () => answer(false)));
  }
});
