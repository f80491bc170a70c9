// One parcel's sheet: what it can be given, when, what limits it and where the water comes from.
const Sheet = (() => {
  const { element, svg } = Legend;
  const sheet = document.getElementById("sheet");

  const number = (name, row) => Parcels.numbers(name)[row];
  const has = (name, row) => !Number.isNaN(number(name, row));
  const idea = (text) => element("bdi", "", text);

  function heading(row) {
    const address = Parcels.address(row);
    const head = element("h3", "", idea(Parcels.id(row)));
    return address ? [head, element("p", "address", idea(address))] : [head];
  }

  function stateLine(row) {
    const place = Parcels.state[row];
    return element("p", "state", Patterns.swatch(Questions.stateClasses[place].look), " ", element("b", "", sentence(row)));
  }

  function sentence(row) {
    const label = Parcels.stateOf(row).label;
    return label[0].toUpperCase() + label.slice(1);
  }

  function flowLine(row) {
    const flow = Parcels.flow(row);
    const big = element("p", "big", element("b", "", Words.whole(flow)), " gpm");
    const start = Parcels.start(row);
    const lasting = Words.minutes(number("duration_min", row));
    const earliest = number("earliest_start_min", row);
    // Hose that is laid too late gives nothing at the start, and then all at once; another way may
    // hold something until then.
    const other = Parcels.otherFlow(row);
    const atStart = other > 0 ? `${Words.whole(other)} gpm by the next best way` : "nothing";
    const words =
      flow > 0
        ? `held from minute ${Words.whole(Math.ceil(start - 1e-9))} after the alarm, for ${lasting}`
        : earliest > 0
          ? `${atStart} is held at the start; the planned flow is, from minute ${Words.whole(Math.ceil(earliest - 1e-9))} after the alarm, for ${lasting}`
          : `no flow that can be held for ${lasting}`;
    const need = `Planned flow ${Words.whole(Parcels.needed(row))} gpm`;
    const short = Parcels.shortfall(row);
    return [
      big,
      element("p", "", words + "."),
      element("p", "", short > 0 ? `${need}: short by ${Words.whole(short)} gpm.` : `${need}.`),
    ];
  }

  // --- clocks ----------------------------------------------------------------------------------

  // The minutes since the alarm as a strip: tank water, the gap, water that keeps coming.
  function strip(row) {
    const tank = number("tank_water_min", row);
    const lasting = number("continuous_min", row);
    if (Number.isNaN(tank)) return [];
    const gap = number("gap_min", row) || 0;
    const start = Parcels.start(row);
    const end = Math.max(30, tank + 10, lasting || 0, start || 0) * 1.12;
    const x = (min) => 6 + (308 * min) / end;
    const until = Number.isNaN(lasting) ? x(end) : x(lasting);
    const picture = svg("svg", { viewBox: "0 0 320 46", role: "img", class: "strip" });
    const words = [
      `tank water from minute ${Math.ceil(tank)}`,
      Number.isNaN(lasting) ? "no water that keeps coming" : `water keeps coming from minute ${Math.ceil(lasting)}`,
      gap > 0 ? `${Math.ceil(gap)} minutes without water between` : "",
    ];
    picture.append(svg("title", {}, "Minutes since the alarm: " + words.filter(Boolean).join("; ")));
    const bar = (from, to, className) =>
      picture.append(svg("rect", { x: from, y: 8, width: Math.max(0, to - from), height: 14, class: className }));
    bar(x(0), x(tank), "strip-none");
    bar(x(tank), Math.max(x(tank), until - (x(gap) - x(0))), "strip-tank");
    if (gap > 0) bar(Math.max(x(tank), until - (x(gap) - x(0))), until, "strip-gap");
    if (!Number.isNaN(lasting)) bar(until, x(end), "strip-flow");
    if (!Number.isNaN(start) && start < end) {
      picture.append(svg("path", { d: `M${x(start)} 3V27`, class: "strip-start" }));
    }
    const step = end > 80 ? 20 : end > 40 ? 10 : 5;
    for (let min = 0; min <= end; min += step) {
      picture.append(svg("path", { d: `M${x(min)} 22V27`, class: "strip-tick" }));
      picture.append(svg("text", { x: x(min), y: 40 }, String(min)));
    }
    const colours = `Pale: tank water. ${gap > 0 ? "Brown: none. " : ""}Dark: keeps coming. Red line: the flow is held from here.`;
    return [element("h4", "", "Minutes since the alarm"), picture, element("p", "small", colours)];
  }

  // --- lists -----------------------------------------------------------------------------------

  function facts(pairs) {
    const list = element("dl", "");
    for (const [name, value] of pairs) {
      if (value === "" || value === null) continue;
      list.append(element("dt", "", name), element("dd", "", value));
    }
    return list;
  }
  const min = (name, row) => (has(name, row) ? Words.minutes(number(name, row)) : "");

  // What closes the gap, and what it costs of the flow.
  function bridge(row) {
    if (!(number("gap_gal", row) > 0)) return "";
    const gallons = `${Words.whole(Math.ceil(number("gap_gal", row) / 10) * 10)} gal more on the first engines`;
    if (!has("gap_nursing_min", row)) return gallons;
    const left = number("gap_nursing_min", row) > 0 ? `${min("gap_nursing_min", row)} without water` : "no gap";
    return `${gallons}; or a ${Words.tanker} that feeds the engine first: ${left}, then ${Words.whole(Words.flow(number("gap_nursing_gpm", row)))} gpm`;
  }

  function clocks(row) {
    return facts([
      ["First engine at the house", min("first_engine_min", row)],
      ["Its tank on the fire", min("tank_water_min", row)],
      ["Water keeps coming", has("tank_water_min", row) && !has("continuous_min", row) ? "not within the planning time" : min("continuous_min", row)],
      ["Feeds the engine first", Parcels.text("nursing_tanker_id", row)],
      ["Tank water ends before supply begins", number("gap_min", row) > 0 ? min("gap_min", row) + " without water" : ""],
      ["What bridges that", bridge(row)],
      ["Planned flow at the earliest", min("earliest_start_min", row)],
      ["On wheels there", has("wheels_gal", row) ? Words.whole(Math.floor(number("wheels_gal", row) / 50) * 50) + " gal" : ""],
    ]);
  }

  function limits(row) {
    const limit = Parcels.text("binding_limit", row);
    const reason = Parcels.text("reason", row);
    return facts([
      ["What limits it", limit ? Words.limits[limit] || Words.readable(limit) : ""],
      ["Not known because", reason ? reasonOf(reason) : ""],
      [`With one ${Words.tanker} out`, number("tankers", row) > 0 ? Words.whole(Parcels.oneOut(row)) + " gpm" : ""],
      ["Margin", Parcels.stateOf(row).word === "held" ? Parcels.text("margin", row) : ""],
      ["Rests on", Words.evidence[Parcels.text("evidence", row)] || ""],
    ]);
  }

  function reasonOf(id) {
    const kinds = Packed.table("problem_kinds");
    const place = kinds.of.problem_id.texts().indexOf(id);
    return place < 0 ? Words.readable(id) : kinds.of.what.texts()[place];
  }

  function named(tableName, idColumn, id) {
    const table = Packed.table(tableName);
    const place = id ? table.of[idColumn].texts().indexOf(id) : -1;
    const name = place >= 0 && table.of.name ? table.of.name.texts()[place] : "";
    return id ? element("span", "", idea(id), ...(name ? [", ", idea(name)] : [])) : "";
  }

  // A fill site that is in use at the same time as the first, and how many fill there.
  function beside(which, row) {
    const id = Parcels.text(which + "_fill_source_id", row);
    return id
      ? element("span", "", named("fill_sites", "source_id", id), ` (${number(which + "_fill_tankers", row)} of ${number("tankers", row)})`)
      : "";
  }

  function places(row) {
    const defaults = number("default_speed_pct", row);
    const mode = Parcels.text("supply_mode", row);
    const nextBest = Parcels.text("runner_up_mode", row);
    const byHose = mode === "direct" || mode === "relay";
    return facts([
      ["How it comes", Words.modes[mode] || ""],
      ["Dump site", named("dump_sites", "dump_site_id", Parcels.text("dump_site_id", row))],
      ["Its lane", Words.lanes[Parcels.text("lane_class", row)] || ""],
      [byHose ? "Hose" : "Hose from there", has("hose_ft", row) ? Words.whole(number("hose_ft", row)) + " ft" : ""],
      [byHose ? "Source" : "Fill site", named("fill_sites", "source_id", Parcels.text("fill_source_id", row))],
      ["Second fill site", beside("second", row)],
      ["Third fill site", beside("third", row)],
      ["Round trip, driving", has("round_trip_min", row) ? `${number("round_trip_min", row).toFixed(1)} min${has("round_trip_mi", row) ? `, ${number("round_trip_mi", row).toFixed(1)} mi` : ""}` : ""],
      ["On default speeds", defaults > 0 ? defaults + " % of the driving" : ""],
      [`${Words.tanker[0].toUpperCase() + Words.tanker.slice(1)}s in the shuttle`, number("tankers", row) > 0 ? String(number("tankers", row)) : ""],
      ["Next best", nextBest ? `${Words.whole(Words.flow(number("runner_up_gpm", row)))} gpm ${Words.modes[nextBest]}` : ""],
      ["First engine from", named("stations", "station_id", Parcels.text("first_station_id", row))],
      ["Station by road", has("station_mi", row) ? number("station_mi", row).toFixed(1) + " mi" : ""],
      ["House from the road", has("setback_ft", row) ? Words.whole(number("setback_ft", row)) + " ft" + (number("access_doubtful", row) === 1 ? " (look at the access)" : "") : ""],
      ["Worst season and period", element("span", "", idea(Parcels.text("worst_season", row)), ", ", idea(Parcels.text("worst_period", row)))],
    ]);
  }

  function lineWords(way) {
    const hose = `Red dots: ${way.dumpSite ? "supply line" : "hose from the source"}, drawn straight.`;
    if (way.loaded >= 0 || way.empty >= 0) {
      return `Blue line: loaded, fill site to dump site. Green dashes: back, empty. ${hose}`;
    }
    return way.dumpSite && way.fillSite
      ? `Its way was not kept: blue dots join fill site and dump site. ${hose}`
      : hose;
  }

  function wayButton(row) {
    const way = Painter.wayOf(row);
    if (!way.dumpSite && !way.fillSite) return [];
    const button = element("button", "", "Show the whole way on the map");
    button.type = "button";
    button.addEventListener("click", () => TheMap.select(row, true));
    return [button, element("p", "small", lineWords(way))];
  }

  function nothingSelected() {
    sheet.replaceChildren(
      element("p", "small", "Click a parcel on the map, or find one above: its flow, its clocks, what limits it and the way of its water stand here."),
    );
  }

  function show(row) {
    if (row < 0) return nothingSelected();
    const body = [...heading(row), stateLine(row)];
    if (Parcels.answered(row)) {
      body.push(...flowLine(row), ...strip(row), clocks(row), ...More.buildUp(row), element("h4", "", "Limits"), limits(row), ...More.gains(row), ...More.nextSources(row));
    } else if (Parcels.improved(row)) {
      body.push(limits(row), ...More.nextSources(row));
    }
    if (Parcels.improved(row)) {
      body.push(element("h4", "", "Where the water comes from"), ...wayButton(row), places(row));
      body.push(element("p", "small", "Planning figures: prove them by a timed drill."));
    }
    sheet.replaceChildren(...body);
    document.getElementById("said").textContent = `${Parcels.id(row)}: ${Parcels.stateOf(row).label}`;
  }

  return { show };
})();
