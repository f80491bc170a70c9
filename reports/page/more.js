// More of one parcel's flow: how it builds up, what one more of each thing gains, and what proposed
// sources would.
const More = (() => {
  const { element, svg } = Legend;
  const number = (name, row) => Parcels.numbers(name)[row];

  // --- build-up --------------------------------------------------------------------------------

  const starts = [5, 8, 10, 15, 20, 30, 60].map((minute) => ({ minute, column: `from_${minute}_min_gpm` }));
  const wide = 320;
  const high = 120;
  const floor = 92;

  function bars(flows, needed, picture) {
    const most = Math.max(needed, ...flows, 1) * 1.15;
    const y = (gpm) => floor - (floor - 6) * (gpm / most);
    const step = (wide - 8) / flows.length;
    flows.forEach((gpm, i) => {
      const x = 8 + i * step;
      picture.append(svg("rect", { x, y: y(gpm), width: step - 8, height: floor - y(gpm), class: gpm >= needed ? "build-met" : "build-short" }));
      picture.append(svg("text", { x: x + step / 2 - 4, y: Math.min(y(gpm) - 3, floor - 3) }, Words.whole(gpm)));
      picture.append(svg("text", { x: x + step / 2 - 4, y: floor + 13 }, String(starts[i].minute)));
    });
    picture.append(svg("path", { d: `M4 ${y(needed)}H${wide - 4}`, class: "build-need" }));
    picture.append(svg("text", { x: wide / 2, y: high - 1 }, "minutes since the alarm"));
  }

  // Flow that can be held from each minute on, as bars against the planned flow.
  function buildUp(row) {
    const needed = Parcels.needed(row);
    const flows = starts.map(({ column }) => Words.flow(number(column, row), number("needed_gpm", row)));
    if (flows.some(Number.isNaN) || !(Math.max(...flows) > 0)) return [];
    const picture = svg("svg", { viewBox: `0 0 ${wide} ${high}`, role: "img", class: "strip build-up" });
    const said = starts.map(({ minute }, i) => `${Words.whole(flows[i])} gpm from minute ${minute}`).join(", ");
    picture.append(svg("title", {}, `Held for ${Words.minutes(number("duration_min", row))}: ${said}`));
    bars(flows, needed, picture);
    return [
      element("h4", "", `Held for ${Words.minutes(number("duration_min", row))}, by when it begins`),
      picture,
      element("p", "small", `gpm. Line: planned flow, ${Words.whole(needed)} gpm.`),
    ];
  }

  // --- gains -----------------------------------------------------------------------------------

  const things = [
    ["gain_tanker_gpm", `one more ${Words.tanker} like the largest`],
    ["gain_fill_place_gpm", "one more fill place, with pump"],
    ["gain_double_source_gpm", "twice the water in the source"],
    ["gain_no_draft_limit_gpm", "a draft without its limit"],
    ["gain_portable_tank_gpm", "one more portable tank, 2,500 gal"],
    ["gain_siphon_gpm", "one more siphon between portable tanks"],
    ["gain_road_room_gpm", "room for another portable tank"],
    ["gain_offload_slot_gpm", "one more slot to offload at"],
    ["gain_ready_5_min_gpm", "everything ready 5 min earlier"],
    ["gain_crew_gpm", "people for one more fill site"],
    ["gain_engine_gpm", "one more engine, there with the others"],
  ];
  const down = (gpm) => Math.floor(gpm / 5) * 5;

  // What gains 5 gpm or more, the largest first.
  function gains(row) {
    const all = things.map(([column, name]) => [name, down(number(column, row))]).filter(([, gpm]) => gpm > 0);
    all.sort(([, a], [, b]) => b - a);
    const more = number("more_tankers", row);
    const list = element("dl", "");
    for (const [name, gpm] of all) list.append(element("dt", "", name), element("dd", "", `+${Words.whole(gpm)} gpm`));
    if (more > 0) list.append(element("dt", "", "Planned flow is met with"), element("dd", "", `${more} more ${Words.tanker}${more > 1 ? "s" : ""} like the largest`));
    return all.length + (more > 0 ? 1 : 0) > 0 ? [element("h4", "", "What one more of each gains"), list] : [];
  }

  // --- proposed sources --------------------------------------------------------------------------

  // What each does for the parcel, one more at a time.
  function nextSources(row) {
    const list = element("dl", "");
    for (const { rank, before, after } of NextSource.stepsOf(row)) {
      list.append(
        element("dt", "", `${rank + 1}. `, element("bdi", "", NextSource.name(rank))),
        element("dd", "", `${Words.whole(Words.flow(before))} to ${Words.whole(Words.flow(after))} gpm`),
      );
    }
    return list.children.length > 0 ? [element("h4", "", "With the proposed sources, one after another"), list] : [];
  }

  return { buildUp, gains, nextSources };
})();
