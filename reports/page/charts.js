// The summary's charts: tables with a bar in each row, so that they read without seeing and print.
const Charts = (() => {
  const { element, svg } = Legend;
  const host = document.getElementById("charts");

  // A bar of pieces { part, look, label }, `whole` wide at most.
  function bar(pieces, whole) {
    const canvas = element("canvas", "bar");
    canvas.width = 600;
    canvas.height = 36;
    canvas.setAttribute("aria-hidden", "true");
    const ink = canvas.getContext("2d");
    let x = 0;
    for (const { part, look } of pieces) {
      const length = (600 * part) / Math.max(1, whole);
      ink.fillStyle = Patterns.fill(ink, look, 2);
      ink.fillRect(x, 2, length, 32);
      ink.strokeStyle = "#1d2b33";
      ink.strokeRect(x + 0.5, 2.5, Math.max(0, length - 1), 31);
      x += length;
    }
    return canvas;
  }

  function figure(title, note, table) {
    return element("figure", "chart", element("figcaption", "", element("h3", "", title), ...(note ? [element("p", "small", note)] : [])), table);
  }

  function headed(...names) {
    const row = element("tr", "");
    names.forEach((name, i) => {
      const cell = element("th", i > 0 && name ? "number" : "", name);
      cell.scope = "col";
      row.append(name ? cell : element("td", ""));
    });
    return element("thead", "", row);
  }

  function line(label, ...cells) {
    const head = element("th", "", label);
    head.scope = "row";
    return element("tr", "", head, ...cells.map((cell) => element("td", typeof cell === "string" ? "number" : "bars", cell)));
  }

  const shares = () => Words.states.map((state, place) => ({ ...state, place })).filter(({ share }) => share);

  function byState() {
    const table = element("table", "", headed("", "Parcels", "Of improved", ""));
    const all = shares().filter(({ place }) => Parcels.count[place] > 0);
    const most = Math.max(...all.map(({ place }) => Parcels.count[place]), 1);
    for (const { label, place } of all) {
      const part = Parcels.count[place];
      const look = Questions.stateClasses[place].look;
      table.append(line(label, Words.whole(part), Words.percent(part, Parcels.allImproved), bar([{ part, look }], most)));
    }
    return figure("Improved parcels by what they can be given", "Worst season and period of each parcel.", table);
  }

  // Per word of a column: counts by state, of improved parcels.
  function counted(column) {
    const { words, codes } = Parcels.table.of[column].words();
    const groups = words.map((word) => ({ word, all: 0, by: new Array(Words.states.length).fill(0) }));
    codes.forEach((code, row) => {
      if (!Parcels.improved(row)) return;
      groups[code].all++;
      groups[code].by[Parcels.state[row]]++;
    });
    return groups.filter(({ all }) => all > 0);
  }

  const held = Words.states.findIndex(({ word }) => word === "held");
  function stacked(title, note, groups, labelOf) {
    const table = element("table", "", headed("", "Parcels", "Meet planned flow", ""));
    const most = Math.max(...groups.map(({ all }) => all), 1);
    for (const group of groups) {
      const pieces = shares().map(({ place }) => ({ part: group.by[place], look: Questions.stateClasses[place].look })).filter(({ part }) => part > 0);
      table.append(line(labelOf(group.word), Words.whole(group.all), Words.percent(group.by[held], group.all), bar(pieces, most)));
    }
    return figure(title, note, table);
  }

  function byStation() {
    const groups = counted("first_station_id").sort((a, b) => b.all - a.all);
    const stations = Packed.table("stations");
    const label = (id) => {
      const place = stations.rows ? stations.of.station_id.texts().indexOf(id) : -1;
      const name = place >= 0 ? stations.of.name.texts()[place] : "";
      return id ? element("bdi", "", name || id) : "no dump site, no engine gets there, or not known";
    };
    return stacked("By station of the first engine", "Bars are split as in the first chart, from left to right in its order.", groups, label);
  }

  function byLimit() {
    const groups = counted("binding_limit").sort((a, b) => b.all - a.all);
    return stacked("By what limits the flow", "Of parcels that meet their planned flow too: what would give out first.", groups, (word) => (word ? Words.limits[word] || Words.readable(word) : "not known"));
  }

  function byNeed() {
    const bounds = [[0, 500], [500, 750], [750, 1000], [1000, 1500], [1500, Infinity]];
    const groups = bounds.map(([from, to]) => ({ word: to === Infinity ? `${Words.whole(from)} gpm and more` : from === 0 ? "below 500 gpm" : `${Words.whole(from)} to ${Words.whole(to - 1)} gpm`, from, to, all: 0, by: new Array(Words.states.length).fill(0) }));
    for (let row = 0; row < Parcels.rows; row++) {
      if (!Parcels.improved(row)) continue;
      const need = Parcels.needed(row);
      const group = groups.find(({ from, to }) => need >= from && need < to);
      if (!group) continue;
      group.all++;
      group.by[Parcels.state[row]]++;
    }
    return stacked("By planned flow", "", groups.filter(({ all }) => all > 0), (word) => word);
  }

  // Share of the improved parcels that have water by each minute.
  function byMinute() {
    const sorted = (name) => {
      const numbers = Parcels.numbers(name);
      const list = [];
      for (let row = 0; row < Parcels.rows; row++) if (Parcels.improved(row) && !Number.isNaN(numbers[row])) list.push(numbers[row]);
      return list.sort((a, b) => a - b);
    };
    const lines = [
      { name: "first engine's tank", list: sorted("tank_water_min"), className: "curve-tank" },
      { name: "water keeps coming", list: sorted("continuous_min"), className: "curve-flow" },
    ];
    const last = Math.max(20, Math.ceil(Math.max(...lines.map(({ list }) => list.at(-1) || 0)) / 10) * 10);
    const x = (min) => 44 + (540 * min) / last;
    const y = (share) => 190 - 170 * share;
    const picture = svg("svg", { viewBox: "0 0 600 222", role: "img", class: "curves" });
    picture.append(svg("title", {}, "Share of improved parcels that have water by each minute since the alarm; the table below has the numbers."));
    for (const share of [0, 0.25, 0.5, 0.75, 1]) {
      picture.append(svg("path", { d: `M44 ${y(share)}H584`, class: "curve-grid" }), svg("text", { x: 38, y: y(share) + 4, class: "curve-left" }, `${share * 100} %`));
    }
    for (let min = 0; min <= last; min += last > 60 ? 20 : 10) picture.append(svg("text", { x: x(min), y: 208 }, String(min)));
    const all = Math.max(1, Parcels.allImproved);
    const table = element("table", "", headed("By minute", ...lines.map(({ name }) => name)));
    for (const { list, className } of lines) {
      let d = `M${x(0)} ${y(0)}`;
      const step = Math.max(1, Math.floor(list.length / 400));
      for (let i = 0; i < list.length; i += step) d += `H${x(list[i]).toFixed(1)}V${y((i + 1) / all).toFixed(1)}`;
      if (list.length) d += `V${y(list.length / all).toFixed(1)}`;
      picture.append(svg("path", { d: d + `H${x(last)}`, class: className }));
    }
    for (const min of [5, 10, 15, 20, 25, 30, 40, 50, 60, 90, 120, 180, 240]) {
      if (min > last) break;
      table.append(line(String(min), ...lines.map(({ list }) => Words.percent(list.filter((n) => n <= min).length, Parcels.allImproved))));
    }
    const keyOf = element("p", "small", "Solid line: first engine's tank on the fire. Dashes: from then on water never runs dry. Minutes since the alarm, per cent of improved parcels.");
    return figure("How soon water comes", "", element("div", "", keyOf, picture, table));
  }

  function fill() {
    host.replaceChildren(byState(), byMinute(), byStation(), byLimit(), byNeed());
    const zones = Packed.table("shortfall_zones").rows;
    const most = 50;
    document.getElementById("zones-table").replaceChildren(Tables.shown("shortfall_zones", { keep: (row) => row < most, all: zones, without: ["short_by"] }));
  }
  return { fill };
})();
