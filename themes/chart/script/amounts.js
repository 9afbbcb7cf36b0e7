"use strict";
/* How much a step takes for a number of models, as `quantity` calculates it. */
{
  const { say, plural, all, one, state, mine, onChange, figures } = Maulstick;
  const added = volumes => volumes.reduce((sum, volume) => sum + volume, 0);
  const needOf = ({ per_model, first = per_model, fixed, reserve = 0, reserve_least }, models) => {
    const need = Math.max(first, per_model * models) + fixed;
    return need + (models < 2 || reserve <= 0 ? 0 : Math.max(reserve * need, reserve_least));
  };
  /* A lot is whole recipes: a part is a drop, or from some millilitres on a mark of a cup or a syringe. */
  const counted = (by, parts, units, need, missing) => {
    const least = added(parts.map((part, at) => part * units[at]));
    const times = Math.max(1, Math.ceil(need / least - missing));
    const counts = parts.map(part => part * times);
    return { by, counts, least, volumes: counts.map((count, at) => count * units[at]) };
  };
  const measured = ({ shares, drops, in_drops, in_marks = in_drops, pour_from, marks }, need, missing = figures.missing) => {
    if (!in_drops || need <= 0) return { by: "volume", least: 0, volumes: shares.map(share => need * share) };
    const poured = need >= pour_from && marks.map(mark => counted("marks", in_marks, in_marks.map(() => mark), need, 1e-9))
      .find(({ volumes }, at) => added(volumes) <= need * (marks[at + 1] ? figures.coarse : figures.too_much));
    if (poured) return in_marks[1] ? poured : { ...poured, least: 0 };
    return counted("drops", in_drops, drops, need, missing);
  };
  /* Less than the least that keeps its ratio is never mixed. */
  const around = (lot, need, spread, least) => {
    const off = Math.max(1, spread);
    return { low: Math.min(Math.max(need / off, least), lot), likely: lot, high: Math.max(need * off, lot) };
  };

  /* As written */
  const sized = ml => String(Number(ml.toFixed(1))).replace(".", say("half")[1]);
  const figure = ml => {
    const text = ml.toFixed(ml < 0.0995 ? 3 : ml < 0.995 ? 2 : ml < 9.95 ? 1 : 0);
    return (text.includes(".") ? text.replace(/\.?0+$/, "") : text).replace(".", say("half")[1]);
  };
  Maulstick.amounts = { added, needOf, measured, around, figure, sized };

  /* The mixes of a page, for as many models as the reader says. */
  const mixes = all("[data-scaling]").map(mix => ({ mix, scaling: JSON.parse(mix.dataset.scaling) }));
  const showMix = (mix, scaling, models) => {
    const need = needOf(scaling, models);
    const { by, counts, volumes } = measured(scaling, need);
    const { low, likely, high } = around(need, need, scaling.spread, 0);
    const said = scaling.can ? "can" : need < scaling.trace ? "trace" : "need";
    one("[data-need]", mix).textContent =
      plural(`mix.${said}`, models, { likely: figure(likely), low: figure(low), high: figure(high) });
    const lot = one(".mix-lot", mix);
    if (!lot) return;
    /* A pot is one line, whatever is in it. */
    let at = 0;
    const rows = scaling.lines.map(count => added((by === "drops" ? counts : volumes).slice(at, at += count)));
    const [unit, written] = { drops: ["mix.lot", String], marks: ["mix.pour", sized], volume: ["mix.pour", figure] }[by];
    lot.textContent = plural(unit, models, { parts: rows.map(written).join(" + ") });
    lot.hidden = said === "trace";
  };
  const showMixes = () => mixes.forEach(({ mix, scaling }) => showMix(mix, scaling, state().models));
  if (mixes.length) {
    onChange(name => name === mine && showMixes());
    showMixes();
  }
}
