"use strict";
/* The list for another number of models, and without what the reader has: calculated with `amounts.js` and as
   `shop/bottles.rs` does. An army's list keeps its numbers of models. */
{
  const { say, all, one, get, state, mine, scheme, setText, onChange, plural } = Maulstick;
  const { added, needOf, measured, around, figure, sized } = Maulstick.amounts;
  const data = JSON.parse(one("#slip-data").textContent);
  const { usable, zero } = data;
  const TABLE = 50000;

  /* ---- How much is needed ---- */
  const plus = (a, b) => ({ low: a.low + b.low, likely: a.likely + b.likely, high: a.high + b.high });
  const times = (a, by) => ({ low: a.low * by, likely: a.likely * by, high: a.high * by });
  const lotOf = (scaling, models) => {
    const need = needOf(scaling, models);
    const { volumes, least } = measured(scaling, need);
    return around(added(volumes), need, scaling.spread, least);
  };
  const modelsOf = unit => (scheme ? state() : data.units[unit]).models;
  const needs = () => {
    const sums = {};
    const none = { low: 0, likely: 0, high: 0 };
    const add = (id, need) => { sums[id] = plus(sums[id] ?? none, need); };
    const shared = (lot, volumes) => volumes.map(ml => times(lot, ml / Math.max(added(volumes), Number.MIN_VALUE)));
    const taken = data.pots.map(() => ({ all: none, units: new Set() }));
    for (const { unit, scaling, parts, pots = [], extras } of data.steps) {
      const models = modelsOf(unit);
      const volumes = shared(lotOf(scaling, models), measured(scaling, needOf(scaling, models)).volumes);
      const potOf = at => pots.find(({ from, to }) => from <= at && at < to)?.pot;
      parts.forEach((id, at) => {
        const pot = taken[potOf(at)];
        if (!pot) return add(id, volumes[at]);
        pot.all = plus(pot.all, volumes[at]);
        pot.units.add(unit);
      });
      for (const { id, fixed, per_model } of extras) add(id, plus(fixed, times(per_model, models)));
    }
    /* A pot is mixed once for all steps, with one reserve. */
    data.pots.forEach(({ scaling, parts }, at) => {
      const { all, units } = taken[at];
      const models = [...units].reduce((sum, unit) => sum + modelsOf(unit), 0);
      const reserve = models < 2 || scaling.reserve <= 0 || !all.likely ? 0 : Math.max(scaling.reserve * all.likely, scaling.reserve_least);
      const need = times(all, (all.likely + reserve) / Math.max(all.likely, Number.MIN_VALUE));
      const { volumes, least } = measured(scaling, need.likely * (1 - 1e-9), 0);
      const likely = added(volumes);
      const lot = { low: Math.min(Math.max(need.low, least), likely), likely, high: Math.max(need.high, likely) };
      shared(lot, volumes).forEach((part, line) => add(parts[line], part));
    });
    return sums;
  };

  /* The cheapest set that covers it; of a large need the bulk in the worthiest size */
  const common = (a, b) => (b ? common(b, a % b) : a);
  const byWorth = (a, b) => a.cost * b.units - b.cost * a.units || a.rank * b.units - b.rank * a.units || b.units - a.units;
  const inUnits = (sizes, unit) =>
    sizes.map(size => ({ ...size, units: Math.floor(size.units / unit) })).filter(size => size.units > 0).sort(byWorth);
  const turning = sizes => (sizes[0]?.units ?? 1) * Math.max(1, ...sizes.map(size => size.units));
  const filled = (sizes, need, counts) => {
    const best = [[0, 0, 0]];
    for (let amount = 1; amount <= need; amount += 1) {
      sizes.forEach((size, at) => {
        const [cost, rank] = best[Math.max(0, amount - size.units)];
        const [a, b, c] = [cost + size.cost, rank + size.rank, best[amount]];
        if (!c || a < c[0] || (a === c[0] && b < c[1])) best[amount] = [a, b, at];
      });
    }
    for (let amount = need; amount > 0; amount -= sizes[best[amount][2]].units) counts[sizes[best[amount][2]].at] += 1;
    return counts;
  };
  const mixed = (known, whole) => {
    const unit = known.reduce((sum, size) => common(sum, size.units), 0);
    let [sizes, need] = [inUnits(known, unit), Math.ceil(whole / unit)];
    while (need > TABLE && turning(sizes) > TABLE) {
      const coarse = Math.floor(Math.sqrt(Math.floor(turning(sizes) / TABLE))) + 1;
      [sizes, need] = [inUnits(sizes, coarse), Math.ceil(need / coarse)];
    }
    const counts = known.map(() => 0);
    if (!sizes.length) return counts;
    const bulk = need > TABLE ? Math.ceil((need - turning(sizes)) / sizes[0].units) : 0;
    counts[sizes[0].at] = bulk;
    return filled(sizes, Math.min(TABLE, Math.max(0, need - bulk * sizes[0].units)), counts);
  };
  const choose = (sizes, need) => {
    const whole = need > 0 ? Math.ceil((Math.max(need, 0.01) / usable) * 100 - 0.001) : 0;
    const isPriced = sizes.some(({ price }) => price !== null);
    const known = sizes.filter(({ price }) => (price !== null) === isPriced).map(({ ml, price }) => {
      const units = Math.floor(ml * 100 + 0.001);
      return { ml, price, units, ...(isPriced ? { cost: Math.round(price * 1e6), rank: 1 } : { cost: 1, rank: units }) };
    }).filter(({ units }) => units > 0).sort(byWorth).filter(({ units }, at, list) => list[at - 1]?.units !== units)
      .slice(0, 16).map((size, at) => ({ ...size, at }));
    if (!whole || !known.length) return [];
    const sum = (counts, name) => counts.reduce((total, count, at) => total + count * known[at][name], 0);
    const alone = known.map(({ at, units }) => known.map((_, other) => (other === at ? Math.ceil(whole / units) : 0)));
    const [best] = [...alone, mixed(known, whole)].sort((a, b) => sum(a, "cost") - sum(b, "cost") || sum(a, "rank") - sum(b, "rank"));
    return best.map((count, at) => ({ ...known[at], count })).filter(({ count }) => count).sort((a, b) => b.ml - a.ml);
  };
  const costOf = picks => (!picks.length || picks.some(({ price }) => price === null) ? null : picks.reduce((sum, { cost, count }) => sum + cost * count, 0));

  /* As written */
  const [empty, places = ""] = zero.match(/0(?:[.,](0+))?/);
  const amount = cost => (cost / 1e6).toFixed(places.length).replace(".", say("half")[1]);
  const money = cost => zero.replace(empty, amount(cost));
  const about = ({ likely, low, high }, trace) => {
    if (high < trace) return say("slip.drop");
    if (high - low <= 0.01 * likely) return say("slip.alone", { likely: figure(likely) });
    return say("slip.about", { likely: figure(likely), low: figure(low), high: figure(high) });
  };
  const listed = picks => picks.map(({ count, ml }) => say("slip.bottles", { count, size: sized(ml) })).join(" + ");

  const usual = data.units[0]?.models;
  const said = all(".slip-said");
  const estimates = said.at(-1)?.textContent;
  const put = (selector, text, within = document) => all(selector, within).forEach(element => setText(element, text));
  const showLine = ({ id, have, sizes, unknown, trace }, need = { likely: 0, high: 0 }, marked) => {
    const box = one(`[data-have="${CSS.escape(id)}"]`);
    const line = box.closest("li");
    const isMine = marked.includes(id) && !box.defaultChecked;
    const left = name => (unknown ? (have > 0 ? 0 : 0.001) : need[name] - have);
    const [picks, fewer] = [choose(sizes, left("high")), choose(sizes, left("likely"))];
    const isThere = isMine || (!picks.length && have > 0 && left("high") <= 0);
    if (!unknown) put(".slip-need", about(need, trace), line);
    const buys = picks.reduce((sum, { ml, count }) => sum + ml * count, 0);
    const level = 30 - 20 * Math.min(1, Math.max(0, need.likely - have) / buys);
    const filling = one(".slip-bottle path", line);
    if (filling) filling.setAttribute("d", `M3 ${isThere || !buys ? 30 : level.toFixed(1)}h14V30H3z`);
    put(".slip-bought > span", isThere ? say("slip.there") : picks.length ? listed(picks) : say("slip.no-size"), line);
    const cost = costOf(picks);
    put(".slip-price", isThere || cost === null ? "" : amount(cost), line);
    const likely = one(".slip-likely", line);
    likely.hidden = isThere || listed(picks) === listed(fewer);
    likely.textContent = likely.hidden ? "" : say("slip.likely", { bottles: listed(fewer) || say("slip.none") });
    line.classList.toggle("slip-there", isThere);
    return { picks, fewer, wanted: !isThere && left("high") > 0 };
  };
  /* What is counted in pieces */
  const counted = ({ per_model, pack, price }, models) => {
    const count = Math.ceil(per_model * models - 1e-9);
    const needed = Math.ceil(count / (pack ?? 1));
    const cost = price === null ? 0 : Math.round(price * 1e6) * needed;
    const said = say(pack ? "slip.packs" : "slip.pieces", { count, packs: needed, size: pack });
    return { cost, needed, said: price === null ? said : `${said}, ${money(cost)}` };
  };
  const placeOf = ({ id }) => one(`[data-pieces="${CSS.escape(id)}"]`);
  const show = () => {
    const sums = needs();
    const marked = get("have");
    const wanted = data.lines.map(line => ({ ...showLine(line, sums[line.id], marked), gone: line.gone })).filter(({ wanted }) => wanted);
    const bought = wanted.filter(({ gone }) => !gone);
    const lost = wanted.length - bought.length;
    const total = name => bought.map(line => costOf(line[name])).reduce((sum, cost) => sum + (cost ?? 0), inPacks);
    const packs = data.pieces.map(piece => {
      const place = placeOf(piece);
      const isThere = one("input", place.closest("li")).checked;
      const { cost, needed, said } = counted(piece, scheme ? state().models : piece.models);
      setText(place, isThere ? say("slip.there") : said);
      return { kind: piece.pack > 1 ? "packs" : "pieces", cost: isThere ? 0 : cost, needed: isThere ? 0 : needed };
    });
    const inPacks = packs.reduce((sum, { cost }) => sum + cost, 0);
    const inAll = kind => packs.filter(one => one.kind === kind).reduce((sum, { needed }) => sum + needed, 0);
    const unpriced = bought.filter(({ picks }) => costOf(picks) === null).length;
    const count = bought.flatMap(({ picks }) => picks).reduce((sum, pick) => sum + pick.count, 0);
    const others = ["packs", "pieces"].filter(inAll).map(kind => plural(`shopping.${kind}`, inAll(kind)));
    const things = others.reduce((all, other) => say("shopping.and", { one: all, other }), plural("shopping.bottles", count));
    put(".slip-bottles", say("shopping.to-buy", { things }));
    put(".slip-total", money(total("picks")));
    said.forEach((note, at) => { note.textContent = at ? "" : [
      lost ? say("slip.gone", { count: lost }) : "",
      unpriced ? plural("slip.unpriced", unpriced) : "",
      total("picks") === total("fewer") ? "" : say("slip.total-likely", { total: money(total("fewer")) }),
      estimates,
    ].filter(Boolean).join(" "); });
    if (!scheme) return;
    const { models } = state();
    const armies = one("#slip-armies");
    if (armies) armies.hidden = models !== usual;
    put("#slip-for", plural("shopping.for-scheme", models));
    put(".sums [data-n]", String(models));
    const mixes = data.steps.filter(({ parts }) => parts.length);
    const alone = models < 2;
    const cells = (name, text) => all(`.sums [data-${name}]`).forEach((cell, at) => { cell.textContent = text(mixes[at], cell); });
    cells("lot", ({ scaling, trace }) => about(lotOf(scaling, models), trace));
    cells("each", ({ scaling }) => figure(alone ? scaling.first : scaling.per_model));
    cells("arrives", ({ arrives }, cell) => cell.textContent.replace(/\d+(?:[.,]\d+)?/, figure(arrives[alone ? 0 : 1])));
  };

  if (data.lines.length) {
    if (scheme) all(".slip-models > :not(.models)").forEach(element => { element.hidden = true; });
    onChange(name => (name === mine || name === "have") && show());
    show();
  }
}
