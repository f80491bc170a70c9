// Marks of places: told apart by shape, not by colour.
const Glyphs = (() => {
  const water = "#0b5c8c";
  const dark = "#1d2b33";
  const shapes = {
    hydrant: { d: "M-5 6V-2A5 5 0 0 1 5 -2V6ZM-7 0H-5V3H-7ZM5 0H7V3H5Z", fill: water },
    dry_hydrant: { d: "M-6 0A6 6 0 1 0 6 0A6 6 0 1 0 -6 0Z", fill: water, mark: "M-3 0H3M0 -3V3" },
    draft_site: { d: "M0 -8C5 -2 6 0 6 2A6 6 0 0 1 -6 2C-6 0 -5 -2 0 -8Z", fill: water },
    cistern: { d: "M-6 -5H6V6H-6Z", fill: water, mark: "M-6 -1H6" },
    resting: { d: "M0 -6C4 -1 5 0 5 2A5 5 0 0 1 -5 2C-5 0 -4 -1 0 -6Z", fill: "#ffffff", edge: water, dash: [2, 1.5] },
    station: { d: "M-7 6V-2L0 -8L7 -2V6Z", fill: dark, mark: "M-2 6V1H2V6" },
    officers_place: { d: "M-6 -6H6V6H-6Z", fill: "#ffffff", edge: dark, mark: "M-3 0H3" },
    dump_site: { d: "M-3 -3H3V3H-3Z", fill: "#ffffff", edge: dark },
    proposed: { d: "M-9 0A9 9 0 1 0 9 0A9 9 0 1 0 -9 0Z", fill: "#ffffff", edge: "#1c7c54" },
    target: { d: "M0 -7L7 0L0 7L-7 0Z", fill: "#ffffff", edge: dark, mark: "M-2 0H2M0 -2V2" },
  };
  for (const shape of Object.values(shapes)) {
    shape.path = new Path2D(shape.d);
    shape.markPath = shape.mark ? new Path2D(shape.mark) : null;
  }

  function draw(ink, name, x, y, size = 1) {
    const shape = shapes[name];
    ink.save();
    ink.translate(x, y);
    ink.scale(size, size);
    ink.lineWidth = shape.edge ? 1.5 : 1;
    ink.strokeStyle = shape.edge || "#ffffff";
    ink.fillStyle = shape.fill;
    ink.fill(shape.path);
    ink.setLineDash(shape.dash || []);
    ink.stroke(shape.path);
    if (shape.markPath) {
      ink.setLineDash([]);
      ink.strokeStyle = shape.edge || "#ffffff";
      ink.stroke(shape.markPath);
    }
    ink.restore();
  }

  function picture(name) {
    const canvas = document.createElement("canvas");
    canvas.className = "glyph";
    canvas.setAttribute("aria-hidden", "true");
    canvas.width = canvas.height = 40;
    const ink = canvas.getContext("2d");
    ink.scale(2, 2);
    draw(ink, name, 10, 10);
    return canvas;
  }

  const labels = [
    ["hydrant", "hydrant"],
    ["dry_hydrant", "dry hydrant"],
    ["draft_site", "draft site"],
    ["cistern", "cistern"],
    ["resting", "water that does not count"],
    ["station", "station"],
    ["officers_place", "officer's dump site"],
    ["dump_site", "dump site in use"],
    ["target", "place without a parcel"],
    ["proposed", "proposed source, by its place in the order"],
  ];

  return { draw, picture, labels };
})();
