// Which piece of ground a canvas shows: its middle, in steps of the page's grid, and CSS pixels to
// the step.
const View = (() => {
  const mostScale = 6; // one CSS pixel is then about 3 inches of ground

  class View {
    constructor(x, y, scale) {
      this.x = x;
      this.y = y;
      this.scale = scale;
    }
    static of(extent, width, height) {
      const [west, south, east, north] = extent;
      if (!(east >= west)) return new View(0, 0, 1);
      const scale = 0.94 * Math.min(width / Math.max(1, east - west), height / Math.max(1, north - south));
      return new View((west + east) / 2, (south + north) / 2, Math.min(scale, mostScale));
    }
    toPage(x, y, width, height) {
      return [width / 2 + (x - this.x) * this.scale, height / 2 - (y - this.y) * this.scale];
    }
    toGround(px, py, width, height) {
      return [this.x + (px - width / 2) / this.scale, this.y - (py - height / 2) / this.scale];
    }
    moved(dx, dy) {
      return new View(this.x - dx / this.scale, this.y + dy / this.scale, this.scale);
    }
    // Closer by `factor`, the ground at the page's (px, py) staying there.
    closer(factor, px, py, width, height, leastScale) {
      const scale = Math.max(leastScale, Math.min(mostScale, this.scale * factor));
      const [x, y] = this.toGround(px, py, width, height);
      return new View(x - (px - width / 2) / scale, y + (py - height / 2) / scale, scale);
    }
    box(width, height) {
      return [
        this.x - width / 2 / this.scale,
        this.y - height / 2 / this.scale,
        this.x + width / 2 / this.scale,
        this.y + height / 2 / this.scale,
      ];
    }
  }
  return View;
})();
