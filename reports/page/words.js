// What things are called on the page, and how numbers are rounded for it.
const Words = (() => {
  const facts = Packed.table("about");
  const keys = facts.of.key.texts();
  const values = facts.of.value.texts();
  const fact = (key) => values[keys.indexOf(key)];
  const tanker = fact("tanker_word") || "tanker";

  // Worst last, so that it is drawn on top. `share`: counts among improved parcels.
  const states = [
    { word: "no_building", label: "without a building", share: false },
    { word: "held", label: "meets planned flow", share: true },
    { word: "late", label: "meets planned flow from a later start", share: true },
    { word: "short", label: "holds some flow, less than planned", share: true },
    { word: "tank_only", label: "water on wheels only", share: true },
    { word: "unreached", label: "no engine gets there", share: true },
    { word: "unknown", label: "not known", share: true },
  ];

  const limits = {
    fleet: `${tanker}s: another one gains most`,
    fill_site: "time at the fill site",
    source_volume: "water left in the source",
    source_hydraulics: "flow that the source gives",
    draft: "drafting at the dump site",
    storage: "portable tanks",
    transfer: "transfer between tanks",
    road_room: "room for portable tanks on the road",
    offload: "offloading",
    supply_line: "supply line",
    hose: "hose on the units there",
    engines: "engines",
    readiness: "how soon it is set up, or the hose laid",
    crew: "crews",
    no_dump_site: "no dump site within hose reach",
    no_route: `no way for a ${tanker}`,
    no_source: "no fill site within reach",
    none: "no single thing",
  };

  const kinds = {
    hydrant: "hydrant",
    dry_hydrant: "dry hydrant",
    draft_site: "draft site",
    cistern: "cistern",
    mapped_water: "water on a map",
  };
  const evidence = {
    tested: "tested",
    declared: "declared by somebody who knows it",
    assumed: "assumed: a planning value stands in",
  };
  const modes = {
    shuttle: `by ${tanker} shuttle`,
    direct: "direct: an engine at the source pumps through hose",
    relay: "by relay: more engines stand in the hose line",
  };
  const lanes = { through: "drive through", dead_end: "must back or turn" };

  // Down to 25 gpm below 500, to 50 above, but never below a need that is met.
  const roundedFlow = (gpm) => (gpm < 500 ? Math.floor(gpm / 25) * 25 : Math.floor(gpm / 50) * 50);
  const flow = (gpm, needed = Infinity) => (gpm >= needed ? Math.max(roundedFlow(gpm), Math.floor(needed)) : roundedFlow(gpm));
  const whole = (number) => number.toLocaleString("en-US", { maximumFractionDigits: 0 });
  const percent = (part, all) => (all === 0 ? "–" : ((100 * part) / all).toFixed(1) + " %");
  const minutes = (min) => whole(Math.ceil(min - 1e-9)) + " min";

  return {
    fact,
    modes,
    tanker,
    states,
    limits,
    kinds,
    evidence,
    lanes,
    flow,
    whole,
    percent,
    minutes,
    readable: (word) => word.replaceAll("_", " "),
  };
})();
