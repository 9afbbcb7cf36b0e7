"use strict";
/* Search. The library and the texts are loaded when the reader first goes to the field; both are files of script,
   because a page opened by double click may read nothing else. Accents and capitals do not count. */
{
  const { root, say, make, one, show } = Maulstick;
  const search = one(".search");
  const field = one("input", search);
  const found = one("[data-found]", search);
  const said = one("[data-said]", search);
  const closing = one("[data-closing]", search);
  const MOST = 60;
  const AROUND = 70;

  const LETTERS = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d" };
  const folded = text => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[ßæœøłđ]/g, letter => LETTERS[letter]);

  const load = src => new Promise((done, failed) =>
    document.head.append(make("script", { src, onload: done, onerror: failed })));
  const settings = {
    fields: ["title", "place", "stage", "kind", "ways", "text"],
    storeFields: ["is", "of", "kind", "title", "place", "first", "text", "photo", "colour"],
    tokenize: text => text.split(/[^\p{L}\p{N}\p{M}]+/u).filter(Boolean),
    processTerm: folded,
    searchOptions: { boost: { title: 5, ways: 5, place: 2, stage: 2 }, prefix: true, combineWith: "AND",
      /* One wrong letter is forgiven, in a long word two. */
      fuzzy: term => (term.length > 9 ? 2 : term.length > 3 ? 1 : false),
      boostDocument: (id, term, { is }) => ({ scheme: 2, paint: 1.5 })[is] ?? 1 },
  };
  /* So many texts are taken up before the page may do something else: a moment's work for a telephone. */
  const AT_ONCE = 50;
  let indexes = null;
  /* An index for each part, one after the other: what is in the first can be found while the last is on its way. Where one
     fails, all is begun again by the next question. */
  const prepare = () => {
    if (indexes) return indexes;
    const { library, parts } = search.dataset;
    const texts = self.maulstickTexts = [];
    let before = load(library);
    const made = parts.split(" ").filter(Boolean).map(part => before = before.then(async () => {
      const known = texts.length;
      await load(root + part);
      const index = new MiniSearch(settings);
      await index.addAllAsync(texts.slice(known), { chunkSize: AT_ONCE });
      return index;
    }));
    /* Whoever waits for the first that fails is told; nobody waits for those behind it. */
    for (const one of made) one.catch(() => { if (indexes === made) indexes = null; });
    return indexes = made;
  };
  const pause = () => new Promise(done => setTimeout(done));

  /* The text with the words that were found in marks, made of text nodes alone. */
  const marked = (text, terms) => text.split(/([\p{L}\p{N}\p{M}]+)/u).filter(Boolean).map(piece => {
    const plain = folded(piece);
    return terms.some(term => plain === term || plain.startsWith(term)) ? make("mark", {}, piece) : piece;
  });
  /* The part of a long text around the first word that was found. */
  const excerpt = (text, terms) => {
    const words = [...text.matchAll(/[\p{L}\p{N}\p{M}]+/gu)];
    const hit = words.find(([word]) => terms.some(term => folded(word).startsWith(term)));
    if (!hit) return null;
    const start = Math.max(0, text.lastIndexOf(" ", Math.max(0, hit.index - AROUND)));
    const end = text.indexOf(" ", hit.index + AROUND);
    const part = text.slice(start, end < 0 ? undefined : end).trim();
    return [start > 0 ? "… " : "", ...marked(part, terms), end < 0 ? "" : " …"];
  };
  /* A scheme that was found stands before its versions, and either before its steps. */
  const inOrder = results => {
    const found = new Map(results.map(result => [result.id, result]));
    const shown = new Set();
    const put = result => {
      if (found.has(result.of)) put(found.get(result.of));
      shown.add(result);
    };
    results.forEach(put);
    return [...shown];
  };
  /* How much of a title was asked for: of near answers the one with the nearest title stands first. */
  const nearness = ({ title, match }) => {
    const words = settings.tokenize(title).map(folded);
    const letters = words => words.join("").length;
    return letters(words.filter(word => match[word]?.includes("title"))) / letters(words);
  };
  const picture = ({ photo, colour }) => {
    if (photo) return [make("img", { className: "found-photo", src: root + photo, alt: "", loading: "lazy" })];
    const chip = make("span", { className: "found-chip" }, make("span"));
    if (colour) chip.firstChild.style.background = colour;
    return [colour ? chip : make("span")];
  };
  /* What to do first stands with its step, whole; the sentence behind it once before all of them. */
  const result = ({ id, kind, title, place, first, text, terms, photo, colour }) => {
    const part = excerpt(text, terms);
    return make("li", { className: "found-one" }, ...picture({ photo, colour }), make("div", {},
      make("a", { href: root + id }, ...marked(title, terms)), " ",
      make("span", { className: "maker" }, kind, ...(place ? [" · ", ...marked(place, terms)] : [])),
      ...(first ? [make("p", { className: "caution-first" }, first)] : []),
      ...(part ? [make("p", { className: "found-text" }, ...part)] : [])));
  };
  const put = results => {
    const shown = inOrder(results).slice(0, MOST);
    /* Whoever stands among the results stays there, or comes back to the field. */
    const here = found.contains(document.activeElement) && document.activeElement.href;
    found.replaceChildren(...shown.map(result));
    if (here) ([...found.querySelectorAll("a")].find(({ href }) => href === here) ?? field).focus();
    closing.textContent = self.maulstickClosing ?? "";
    closing.hidden = !shown.some(({ first }) => first);
  };
  /* The number of the question that counts; those before it are given up. */
  let asked = 0;
  /* Asks one part after the other, shows what the first ones give, and in the end the best of all. Returns how much there
     was, and nothing where another question came. Beyond the best of a part only schemes count on, for their steps may be
     among the best. */
  const answer = async (own, wanted, options) => {
    const best = [];
    let count = 0;
    const parts = prepare();
    for (const [at, part] of parts.entries()) {
      const index = await part;
      if (own !== asked) return null;
      const results = index.search(wanted, options);
      const isFirst = !count && results.length && at + 1 < parts.length;
      count += results.length;
      best.push(...results.filter(({ is }, at) => at < MOST || is === "scheme"));
      if (isFirst) put(best);
      await pause();
      if (own !== asked) return null;
    }
    if (!count) return 0;
    put(best.sort((one, other) => (options ? 0 : nearness(other) - nearness(one)) || other.score - one.score));
    said.textContent = count > MOST ? say("search.shown", { shown: MOST, count }) : say("search.found", { count });
    return count;
  };
  const look = async () => {
    const own = ++asked;
    const wanted = field.value.trim();
    history.replaceState(null, "", location.pathname + (wanted ? `#${encodeURIComponent(wanted)}` : ""));
    if (!wanted) {
      put([]);
      said.textContent = "";
      return;
    }
    if (!indexes || indexes.length > 1) said.textContent = say("search.loading");
    try {
      /* A word that is nearly the same is no answer where the very word is there. */
      let count = await answer(own, wanted, { fuzzy: false });
      if (count === 0) count = await answer(own, wanted);
      if (count !== 0) return;
      put([]);
      said.textContent = say("search.nothing", { wanted });
    } catch {
      if (own !== asked) return;
      put([]);
      said.textContent = say("search.failed");
    }
  };
  let later = 0;
  field.oninput = () => {
    clearTimeout(later);
    later = setTimeout(look, 120);
  };
  field.onfocus = prepare;
  /* Down from the field to the results, and up and down among them. */
  search.onkeydown = event => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const stops = [field, ...found.querySelectorAll("a")];
    const at = stops.indexOf(document.activeElement);
    const next = step && at >= 0 && stops[at + step];
    if (!next) return;
    event.preventDefault();
    next.focus();
  };
  const linked = () => new URLSearchParams(location.search).get("q");
  const read = () => {
    try {
      field.value = decodeURIComponent(location.hash.slice(1)) || linked() || "";
    } catch {
      field.value = "";
    }
    look();
  };
  show(".search");
  if (location.hash || linked()) read();
}
