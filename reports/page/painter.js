// Draws the ground: parcels, roads, water, places, what is selected, scale and north.
const Painter = (() => {
  const stepMetres = Number(Words.fact("step_m"));
  const paper = "#fbfaf5";
  const metresPerMile = 1609.344;
  const metresPerFoot = 0.3048;

  const hasAreas = Boolean(Parcels.table.of.area);
  const parcels = new Grid.Layer(hasAreas ? Parcels.table.of.area : Parcels.table.of.shape);
  const houses = Parcels.table.of.shape.shapes();
  const roadTable = Packed.table("roads");
  const roads = new Grid.Layer(roadTable.of.shape);

  const meets = (a, b) => a[0] <= b[2] && a[2] >= b[0] && a[1] <= b[3] && a[3] >= b[1];

  function extent() {
    const a = parcels.extent();
    const b = roads.extent();
    return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
  }

  // --- parcels ---------------------------------------------------------------------------------

  // How fine paths have to be: steps that are about half a pixel. A power of 2, so that paths serve
  // for a range of scales; 0 = every vertex.
  const fineOf = (view) => (view.scale > 0.15 ? 0 : 2 ** Math.floor(Math.log2(0.7 / view.scale)));

  // What is drawn of the parcels: the question's classes, and which states pass the filter.
  // Paths are kept per cell and class until that or their fineness changes.
  let drawn = { question: null, shown: null, paths: new Map(), fine: 0 };

  function setParcels(question, shown) {
    drawn = { question: Questions.sorted(question), shown, paths: new Map(), fine: 0 };
  }

  const hidden = 255;
  const classAt = (row) => (drawn.shown[Parcels.state[row]] ? drawn.question.of[row] : hidden);

  function addSquare(path, row) {
    const v = houses.parts[houses.rows[row]];
    path.rect(houses.east[v] - 8, -houses.north[v] - 8, 16, 16);
  }

  // Class -> path of the cell's parcels in it.
  function pathsOf(cell) {
    let paths = drawn.paths.get(cell);
    if (!paths) {
      paths = new Map();
      for (const row of cell.rows) {
        const place = classAt(row);
        if (!paths.has(place)) paths.set(place, new Path2D());
        if (hasAreas) parcels.trace(paths.get(place), row, true, drawn.fine);
        else addSquare(paths.get(place), row);
      }
      drawn.paths.set(cell, paths);
    }
    return paths;
  }

  function toGround(ink, view, width, height, ratio) {
    const scale = view.scale * ratio;
    ink.setTransform(scale, 0, 0, scale, (width * ratio) / 2 - view.x * scale, (height * ratio) / 2 + view.y * scale);
  }

  // Strokes stay upright and of one size whatever the scale.
  function fillOf(ink, look, view, ratio) {
    const style = Patterns.fill(ink, look, ratio);
    if (typeof style !== "string") {
      const scale = view.scale * ratio;
      style.setTransform(new DOMMatrix([1 / scale, 0, 0, 1 / scale, 0, 0]));
    }
    return style;
  }

  // The longer side of the parcel in the middle of a few thousand by size, in steps; of houses that
  // of their square.
  const usualSide = (() => {
    if (!hasAreas) return 16;
    const sides = [];
    const apart = Math.max(1, Math.floor(Parcels.table.rows / 4000));
    for (let row = 0; row < Parcels.table.rows; row += apart) {
      const [west, south, east, north] = parcels.boxes.subarray(row * 4, row * 4 + 4);
      if (west <= east) sides.push(Math.max(east - west, north - south));
    }
    sides.sort((a, b) => a - b);
    return sides[Math.floor(sides.length / 2)] ?? 0;
  })();
  const leastOutlined = 4; // pixels: outlines of smaller parcels would hide what they enclose
  const outlineOf = (side) => Math.min(0.6, side / 25);
  const mostThickened = 60000; // parcels in sight: more would take too long

  function paintParcels(ink, view, width, height, ratio) {
    const box = view.box(width, height);
    const cells = parcels.cells.filter((cell) => meets(cell.box, box));
    const side = usualSide * view.scale;
    const edge = side >= leastOutlined;
    const thickens = !edge && cells.reduce((sum, cell) => sum + cell.rows.length, 0) < mostThickened;
    if (drawn.fine !== fineOf(view)) drawn = { ...drawn, paths: new Map(), fine: fineOf(view) };
    toGround(ink, view, width, height, ratio);
    ink.lineWidth = (edge ? outlineOf(side) : 0.6) / view.scale;
    const last = drawn.question.classes.length;
    for (let place = 0; place < last; place++) {
      const { look, faint } = drawn.question.classes[place];
      ink.fillStyle = fillOf(ink, look, view, ratio);
      ink.strokeStyle = faint ? "#c9c4b4" : "rgba(29,43,51,0.55)";
      for (const cell of cells) {
        const path = pathsOf(cell).get(place);
        if (!path) continue;
        if (!faint) ink.fill(path);
        if (!edge && (faint || !thickens)) continue;
        if (!edge) ink.strokeStyle = ink.fillStyle; // so that none is too small to be seen
        ink.stroke(path);
      }
    }
    ink.strokeStyle = "#d8d3c4";
    for (const cell of cells) {
      const path = edge && hasAreas && pathsOf(cell).get(hidden);
      if (path) ink.stroke(path);
    }
  }

  // --- roads -----------------------------------------------------------------------------------

  const roadLooks = [
    { test: (main, tanker) => !tanker, width: 1, colour: "#8b7f66", dash: [4, 3], least: 0.02 },
    { test: (main, tanker) => tanker && !main, width: 1.1, colour: "#6f6a5d", least: 0.012 },
    { test: (main, tanker) => tanker && main, width: 2.2, colour: "#4f4b42", least: 0 },
  ];
  const roadLookOf = (() => {
    const kinds = roadTable.of.class.texts();
    const tanker = roadTable.of.tanker_may_use.numbers();
    return Uint8Array.from(kinds, (kind, row) => {
      const main = kind === "state" || kind === "paved";
      return roadLooks.findIndex((look) => look.test(main, tanker[row] !== 0));
    });
  })();
  let roadPaths = { paths: new Map(), fine: 0 };

  function roadPathsOf(cell) {
    let paths = roadPaths.paths.get(cell);
    if (!paths) {
      paths = roadLooks.map(() => new Path2D());
      for (const row of cell.rows) roads.trace(paths[roadLookOf[row]], row, false, roadPaths.fine);
      roadPaths.paths.set(cell, paths);
    }
    return paths;
  }

  function paintRoads(ink, view, width, height, ratio) {
    const box = view.box(width, height);
    const cells = roads.cells.filter((cell) => meets(cell.box, box));
    if (roadPaths.fine !== fineOf(view)) roadPaths = { paths: new Map(), fine: fineOf(view) };
    const wider = Math.max(view.scale < 0.012 ? 0.3 : 0.6, Math.min(2.5, view.scale * 3));
    toGround(ink, view, width, height, ratio);
    ink.lineJoin = ink.lineCap = "round";
    roadLooks.forEach((look, place) => {
      if (view.scale < look.least) return;
      for (const [colour, extra] of [[paper, 1.6], [look.colour, 0]]) {
        if (extra > 0 && view.scale < (place < 2 ? 0.05 : 0.012)) continue;
        ink.strokeStyle = colour;
        ink.lineWidth = (look.width * wider + extra) / view.scale;
        ink.setLineDash(extra === 0 && look.dash ? look.dash.map((d) => d / view.scale) : []);
        for (const cell of cells) ink.stroke(roadPathsOf(cell)[place]);
      }
    });
    ink.setLineDash([]);
  }

  // --- places ----------------------------------------------------------------------------------

  // { glyph, x, y, name, least: scale from which it is drawn, plate: what stands in it }
  const marks = (() => {
    const list = [];
    const add = (tableName, glyphOf, nameOf, leastOf = () => 0, plateOf = () => "") => {
      const table = Packed.table(tableName);
      if (table.rows === 0) return;
      const { rows, parts, east, north } = table.of.shape.shapes();
      for (let row = 0; row < table.rows; row++) {
        if (rows[row] === rows[row + 1]) continue;
        const v = parts[rows[row]];
        list.push({
          glyph: glyphOf(table, row),
          x: east[v],
          y: north[v],
          name: nameOf(table, row),
          least: leastOf(table, row),
          plate: plateOf(row),
        });
      }
    };
    const text = (table, column, row) => table.of[column].texts()[row];
    const named = (id) => (table, row) => text(table, "name", row) || text(table, id, row);
    add("resting_water", () => "resting", named("water_id"), () => 0.03);
    add(
      "dump_sites",
      (table, row) => (table.of.officers_place.numbers()[row] === 1 ? "officers_place" : "dump_site"),
      (table, row) => text(table, "dump_site_id", row),
      (table, row) =>
        table.of.officers_place.numbers()[row] === 1 ? 0 : table.of.parcels_served.numbers()[row] > 0 ? 0.06 : 1e9,
    );
    add("target_supply", () => "target", named("target_id"));
    add("fill_sites", (table, row) => text(table, "kind", row), named("source_id"));
    add("stations", () => "station", named("station_id"));
    if (NextSource.there) add("source_proposals", () => "proposed", named("source_id"), () => 0, (row) => String(row + 1));
    return list;
  })();

  function paintMarks(ink, view, width, height, ratio) {
    ink.setTransform(ratio, 0, 0, ratio, 0, 0);
    const size = Math.max(0.45, Math.min(1, 0.6 + view.scale * 4, view.scale * 27));
    for (const mark of marks) {
      if (view.scale < mark.least) continue;
      const [x, y] = view.toPage(mark.x, mark.y, width, height);
      if (x < -20 || y < -20 || x > width + 20 || y > height + 20) continue;
      Glyphs.draw(ink, mark.glyph, x, y, mark.plate ? 1 : size);
      if (mark.plate) plate(ink, mark.plate, x, y);
      if (view.scale > 0.22 || (mark.glyph === "station" && view.scale > 0.03)) label(ink, mark.name, x + 10, y + 4);
    }
  }

  function plate(ink, text, x, y) {
    ink.font = "700 12px system-ui, sans-serif";
    ink.fillStyle = "#0f5637";
    ink.fillText(text, x - ink.measureText(text).width / 2, y + 4.2);
  }

  function label(ink, text, x, y, colour = "#1d2b33") {
    ink.font = "600 12px system-ui, sans-serif";
    ink.direction = "ltr";
    ink.lineWidth = 3;
    ink.strokeStyle = paper;
    ink.strokeText(text, x, y);
    ink.fillStyle = colour;
    ink.fillText(text, x, y);
  }

  // --- shortfall zones ---------------------------------------------------------------------------

  const zoneTable = Packed.table("shortfall_zones");
  const zones = zoneTable.rows > 0 ? new Grid.Layer(zoneTable.of.shape) : null;
  let zonePaths = { paths: new Map(), fine: -1 };

  function zonePathOf(row) {
    if (!zonePaths.paths.has(row)) {
      const path = new Path2D();
      zones.trace(path, row, true, zonePaths.fine);
      zonePaths.paths.set(row, path);
    }
    return zonePaths.paths.get(row);
  }

  // Outlines of the zones in sight, and their numbers where there is room for them.
  function paintZones(ink, view, width, height, ratio) {
    if (!zones || drawn.question.id !== "shortfall") return;
    const box = view.box(width, height);
    if (zonePaths.fine !== fineOf(view)) zonePaths = { paths: new Map(), fine: fineOf(view) };
    const boxOf = (row) => zones.boxes.subarray(row * 4, row * 4 + 4);
    const seen = [...Array(zoneTable.rows).keys()].filter((row) => boxOf(row)[0] <= boxOf(row)[2] && meets(boxOf(row), box));
    toGround(ink, view, width, height, ratio);
    ink.lineJoin = "round";
    const wider = Math.max(1, Math.min(2, 0.7 + view.scale * 6));
    for (const [colour, wide] of [[paper, wider + 1.8], ["#a3123a", wider]]) {
      ink.strokeStyle = colour;
      ink.lineWidth = wide / view.scale;
      for (const row of seen) ink.stroke(zonePathOf(row));
    }
    ink.setTransform(ratio, 0, 0, ratio, 0, 0);
    for (const row of seen) {
      const [west, south, east, north] = boxOf(row);
      if (Math.max(east - west, north - south) * view.scale < 36) continue;
      const [x, y] = view.toPage((west + east) / 2, (south + north) / 2, width, height);
      const words = `Zone ${row + 1}`;
      ink.font = "600 12px system-ui, sans-serif";
      label(ink, words, x - ink.measureText(words).width / 2, y + 4, "#7a0d2b");
    }
  }

  // --- the selected parcel ---------------------------------------------------------------------

  function lineOf(layer, row, view, width, height) {
    const path = new Path2D();
    const { rows, parts, east, north } = layer;
    for (let part = rows[row]; part < rows[row + 1]; part++) {
      for (let v = parts[part]; v < parts[part + 1]; v++) {
        const [x, y] = view.toPage(east[v], north[v], width, height);
        if (v === parts[part]) path.moveTo(x, y);
        else path.lineTo(x, y);
      }
    }
    return path;
  }

  function placeOf(tableName, idColumn, id) {
    const table = Packed.table(tableName);
    const row = table.rows === 0 || id === "" ? -1 : table.of[idColumn].texts().indexOf(id);
    if (row < 0) return null;
    const { rows, parts, east, north } = table.of.shape.shapes();
    return rows[row] === rows[row + 1] ? null : [east[parts[rows[row]]], north[parts[rows[row]]]];
  }

  // Where a parcel's water goes along. Null for what is not there.
  function wayOf(row) {
    const v = houses.parts[houses.rows[row]];
    const leg = (name) => {
      const place = Parcels.numbers(name)[row];
      return Number.isNaN(place) ? -1 : place;
    };
    return {
      house: houses.rows[row] === houses.rows[row + 1] ? null : [houses.east[v], houses.north[v]],
      dumpSite: placeOf("dump_sites", "dump_site_id", Parcels.text("dump_site_id", row)),
      fillSite: placeOf("fill_sites", "source_id", Parcels.text("fill_source_id", row)),
      loaded: leg("loaded_route"),
      empty: leg("empty_route"),
    };
  }

  function stroke(ink, path, colour, lineWidth, dash) {
    ink.setLineDash([]);
    ink.strokeStyle = "#ffffff";
    ink.lineWidth = lineWidth + 3;
    ink.stroke(path);
    ink.setLineDash(dash);
    ink.strokeStyle = colour;
    ink.lineWidth = lineWidth;
    ink.stroke(path);
    ink.setLineDash([]);
  }

  function straight(from, to, view, width, height) {
    const path = new Path2D();
    path.moveTo(...view.toPage(...from, width, height));
    path.lineTo(...view.toPage(...to, width, height));
    return path;
  }

  function paintSelected(ink, view, width, height, ratio, row) {
    if (row < 0) return;
    ink.setTransform(ratio, 0, 0, ratio, 0, 0);
    const way = wayOf(row);
    if (hasAreas) {
      const outline = lineOf(parcels.shapes, row, view, width, height);
      outline.closePath();
      stroke(ink, outline, "#1d2b33", 2.5, []);
    }
    const routes = Packed.table("shuttle_routes");
    const kept = way.loaded >= 0 || way.empty >= 0;
    for (const [leg, colour, dash] of [[way.empty, "#1c7c54", [9, 5]], [way.loaded, "#0b5c8c", []]]) {
      if (leg >= 0) stroke(ink, lineOf(routes.of.shape.shapes(), leg, view, width, height), colour, 3.5, dash);
    }
    if (!kept && way.dumpSite && way.fillSite) {
      stroke(ink, straight(way.fillSite, way.dumpSite, view, width, height), "#0b5c8c", 2, [3, 5]);
    }
    const hoseFrom = way.dumpSite || way.fillSite;
    if (hoseFrom && way.house) {
      stroke(ink, straight(hoseFrom, way.house, view, width, height), "#a3123a", 2.5, [2, 4]);
    }
    if (way.fillSite) {
      const [x, y] = view.toPage(...way.fillSite, width, height);
      const table = Packed.table("fill_sites");
      const place = table.of.source_id.texts().indexOf(Parcels.text("fill_source_id", row));
      Glyphs.draw(ink, table.of.kind.texts()[place], x, y, 1.4);
      label(ink, way.dumpSite ? "Fill" : "Source", x + 12, y + 4);
    }
    if (way.dumpSite) {
      const [x, y] = view.toPage(...way.dumpSite, width, height);
      Glyphs.draw(ink, "officers_place", x, y, 1);
      label(ink, "Dump", x + 10, y + 4);
    }
    if (way.house && Parcels.improved(row)) {
      const [x, y] = view.toPage(...way.house, width, height);
      ink.beginPath();
      ink.arc(x, y, 5, 0, 7);
      ink.fillStyle = "#a3123a";
      ink.fill();
      ink.lineWidth = 2;
      ink.strokeStyle = "#ffffff";
      ink.stroke();
    }
  }

  // --- scale and north -------------------------------------------------------------------------

  // The longest round length that fits, in miles, else in feet.
  function scaleLength(view) {
    const room = 130 / view.scale * stepMetres;
    for (const miles of [50, 20, 10, 5, 2, 1, 0.5, 0.25]) {
      if (miles * metresPerMile <= room) return [miles * metresPerMile, `${miles} mi`];
    }
    for (const feet of [1000, 500, 200, 100, 50, 20]) {
      if (feet * metresPerFoot <= room) return [feet * metresPerFoot, `${feet} ft`];
    }
    return [10 * metresPerFoot, "10 ft"];
  }

  function paintScale(ink, view, width, height, ratio) {
    ink.setTransform(ratio, 0, 0, ratio, 0, 0);
    const [metres, words] = scaleLength(view);
    const length = (metres / stepMetres) * view.scale;
    const left = 14;
    const base = height - 14;
    ink.fillStyle = "rgba(251,250,245,0.88)";
    ink.fillRect(left - 8, base - 26, length + 50, 34);
    ink.fillStyle = ink.strokeStyle = "#1d2b33";
    ink.lineWidth = 1.5;
    ink.fillRect(left, base - 5, length / 2, 5);
    ink.strokeRect(left, base - 5, length, 5);
    ink.font = "12px system-ui, sans-serif";
    ink.fillText(words, left, base - 11);
    ink.beginPath();
    const north = left + length + 22;
    ink.moveTo(north, base);
    ink.lineTo(north, base - 20);
    ink.lineTo(north - 5, base - 11);
    ink.moveTo(north, base - 20);
    ink.lineTo(north + 5, base - 11);
    ink.stroke();
    ink.fillText("N", north + 6, base);
  }

  function paint(canvas, view, width, height, ratio, selected) {
    const ink = canvas.getContext("2d", { alpha: false });
    ink.setTransform(1, 0, 0, 1, 0, 0);
    ink.fillStyle = paper;
    ink.fillRect(0, 0, canvas.width, canvas.height);
    paintParcels(ink, view, width, height, ratio);
    paintRoads(ink, view, width, height, ratio);
    paintZones(ink, view, width, height, ratio);
    paintMarks(ink, view, width, height, ratio);
    paintSelected(ink, view, width, height, ratio, selected);
    paintScale(ink, view, width, height, ratio);
  }

  function rowAt(x, y, reach) {
    return hasAreas ? parcels.rowAt(x, y) : parcels.rowNear(x, y, reach);
  }

  // West, south, east, north of a parcel and the places that its water goes along.
  function reachOf(row) {
    const way = wayOf(row);
    const box = [...parcels.boxes.subarray(row * 4, row * 4 + 4)];
    const { rows, parts, east, north } = Packed.table("shuttle_routes").rows ? Packed.table("shuttle_routes").of.shape.shapes() : { rows: [] };
    const include = (x, y) => {
      box[0] = Math.min(box[0], x);
      box[1] = Math.min(box[1], y);
      box[2] = Math.max(box[2], x);
      box[3] = Math.max(box[3], y);
    };
    for (const place of [way.house, way.dumpSite, way.fillSite]) if (place) include(...place);
    for (const leg of [way.loaded, way.empty]) {
      if (leg < 0) continue;
      for (let v = parts[rows[leg]]; v < parts[rows[leg + 1]]; v++) include(east[v], north[v]);
    }
    return box;
  }
  const boxOf = (row) => [...parcels.boxes.subarray(row * 4, row * 4 + 4)];

  // Round a proposed source and the parcels that it changes.
  function reachOfProposal(rank) {
    const mark = marks.filter(({ glyph }) => glyph === "proposed")[rank];
    const box = [mark.x, mark.y, mark.x, mark.y];
    for (const [row, steps] of NextSource.rows()) {
      if (!steps.some((step) => step.rank === rank)) continue;
      const [west, south, east, north] = boxOf(row);
      if (west > east) continue;
      box[0] = Math.min(box[0], west);
      box[1] = Math.min(box[1], south);
      box[2] = Math.max(box[2], east);
      box[3] = Math.max(box[3], north);
    }
    return box;
  }

  return { paint, setParcels, extent, rowAt, reachOf, reachOfProposal, boxOf, wayOf, marks, hasZones: zones !== null };
})();
