"use strict";
/* What this device keeps of the guide: counted, saved to a file, read from one, and forgotten. */
{
  const { say, make, one, show, guide, get, set, change, pageOf, cleaned, schemes, forget, onChange } = Maulstick;
  const FORMAT = "maulstick-marks";
  const VERSION = 1;
  const said = one("[data-said]");

  const marks = () => ({
    format: FORMAT,
    version: VERSION,
    guide,
    have: get("have"),
    schemes: Object.fromEntries(schemes().sort().map(slug => [slug, get(`scheme ${slug}`)])),
  });
  const counted = () => {
    const steps = schemes().reduce((sum, slug) => sum + Object.keys(get(`scheme ${slug}`).done).length, 0);
    return { steps, paints: get("have").length };
  };
  const showSum = () => { one("[data-sum]").textContent = say("device.sum", counted()); };

  one("[data-save]").onclick = () => {
    const href = URL.createObjectURL(new Blob([JSON.stringify(marks(), null, 1)], { type: "application/json" }));
    const name = `${guide.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "")}-marks.json`;
    make("a", { href, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(href), 60000);
    said.textContent = say("device.saved", { name });
  };

  /* Takes in a file, or says why not. Nothing is changed unless all of it can be used. */
  const takeIn = text => {
    let file;
    try {
      file = JSON.parse(text);
    } catch {
      return say("device.wrong");
    }
    if (file?.format !== FORMAT || typeof file.schemes !== "object" || !file.schemes || !Array.isArray(file.have)) {
      return say("device.wrong");
    }
    if (!(file.version <= VERSION)) return say("device.newer");
    if (file.guide !== guide) return say("device.other-guide", { guide: String(file.guide) });
    set("have", cleaned("have", file.have));
    for (const [slug, state] of Object.entries(file.schemes)) set(`scheme ${slug}`, cleaned("scheme x", state));
    return say("device.was-read", counted());
  };
  const field = one("[data-read]");
  field.onchange = async () => {
    const [file] = field.files;
    if (!file) return;
    /* Marks are small; what is larger than this is something else. */
    said.textContent = file.size > 5e6 ? say("device.wrong") : takeIn(await file.text());
    field.value = "";
  };
  one("[data-forget]").onclick = () => {
    if (!confirm(say("device.sure"))) return;
    forget();
    said.textContent = say("device.forgotten");
  };

  /* The schemes that are kept for reading without network; offline.js calls this when its worker is ready. */
  Maulstick.onWorker = async (worker, ask) => {
    const { slugs } = await ask(worker, { list: true });
    const items = slugs.map(({ slug, title }) => make("li", {}, make("a", { href: pageOf(slug) }, title), " ",
      make("button", { type: "button", className: "plain", onclick: async event => {
        change("settings", settings => settings.dropped.push(slug));
        await ask(worker, { drop: slug });
        event.target.closest("li").remove();
      } }, say("offline.drop"), make("span", { className: "unseen" }, `: ${title}`))));
    one("[data-kept]").replaceChildren(...items);
    one("[data-none]").hidden = items.length > 0;
    one("[data-kept-part]").hidden = false;
  };

  onChange(showSum);
  showSum();
  show(".device");
}
