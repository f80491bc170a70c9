// How classes look: a colour, and strokes on it where a colour alone must not tell.
const Patterns = (() => {
  const side = 8;
  const strokes = {
    rise: [[-2, 10, 10, -2], [-2, 2, 2, -2], [6, 10, 10, 6]],
    fall: [[-2, -2, 10, 10], [6, -2, 10, 2], [-2, 6, 2, 10]],
    cross: [[0, 0, 8, 8], [0, 8, 8, 0]],
    bars: [[0, 2, 8, 2], [0, 6, 8, 6]],
    posts: [[2, 0, 2, 8], [6, 0, 6, 8]],
  };

  function draw(ink, look) {
    ink.fillStyle = look.fill;
    ink.fillRect(0, 0, side, side);
    ink.strokeStyle = ink.fillStyle = look.ink;
    ink.lineWidth = look.width || 1.2;
    if (look.hatch === "dots") {
      for (const [x, y] of [[2, 2], [6, 6]]) {
        ink.beginPath();
        ink.arc(x, y, 1.1, 0, 7);
        ink.fill();
      }
    }
    for (const [x1, y1, x2, y2] of strokes[look.hatch] || []) {
      ink.beginPath();
      ink.moveTo(x1, y1);
      ink.lineTo(x2, y2);
      ink.stroke();
    }
  }

  // A fill style for a canvas whose pixels are `ratio` to the CSS pixel.
  function fill(ink, look, ratio) {
    if (!look.hatch) return look.fill;
    const tile = document.createElement("canvas");
    tile.width = tile.height = side * ratio;
    const tileInk = tile.getContext("2d");
    tileInk.scale(ratio, ratio);
    draw(tileInk, look);
    return ink.createPattern(tile, "repeat");
  }

  // A small picture of the look for lists; the words beside it say what it means.
  function swatch(look) {
    const canvas = document.createElement("canvas");
    canvas.className = "swatch";
    canvas.setAttribute("aria-hidden", "true");
    canvas.width = 48;
    canvas.height = 32;
    const ink = canvas.getContext("2d");
    ink.fillStyle = fill(ink, look, 2);
    ink.fillRect(0, 0, 48, 32);
    return canvas;
  }

  return { fill, swatch };
})();
