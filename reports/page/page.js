// Starts the page: which sheet is seen, and what goes to the printer.
const sheetNames = ["map", "summary", ...(NextSource.there ? ["next"] : []), "places", "data", "assumptions", "cautions"];
const filledOnce = new Set();

function fillSheet(name) {
  if (filledOnce.has(name)) return;
  filledOnce.add(name);
  if (name === "summary") Charts.fill();
  else if (name === "next") Proposals.fill();
  else Tables.fill(name);
}

function showSheet() {
  const wanted = location.hash.slice(1);
  const name = sheetNames.includes(wanted) ? wanted : "map";
  for (const other of sheetNames) document.getElementById("leaf-" + other).hidden = other !== name;
  for (const link of document.querySelectorAll("#sheets a")) {
    if (link.hash === "#" + name) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  fillSheet(name);
  if (name === "map") TheMap.redraw();
  window.scrollTo(0, 0);
}

// On paper: the map as it is seen, its key, the selected parcel, summary and cautions. Lists of
// thousands of rows stay in tables/, so a sheet prints only when it is the one that is seen.
function preparePaper() {
  fillSheet("summary");
  const plot = document.getElementById("plot");
  plot.querySelector(".on-paper")?.remove();
  const picture = TheMap.picture();
  picture.className = "on-paper";
  picture.setAttribute("aria-hidden", "true");
  plot.append(picture);
}

document.getElementById("next-link").hidden = !NextSource.there;
TheMap.start((row) => Sheet.show(row));
Sheet.show(-1);
window.addEventListener("hashchange", showSheet);
window.addEventListener("beforeprint", preparePaper);
showSheet();
document.documentElement.dataset.ready = "yes";
