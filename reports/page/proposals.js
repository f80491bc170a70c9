// The sheet of proposed sources: the order, what each takes first, and its numbers.
const Proposals = (() => {
  const { element } = Legend;

  function onMap(rank) {
    const button = element("button", "", "Show on the map");
    button.type = "button";
    button.setAttribute("aria-label", `Show on the map: proposal ${rank + 1}`);
    button.addEventListener("click", () => {
      location.hash = "#map";
      Legend.ask("next");
      requestAnimationFrame(() => TheMap.look(Painter.reachOfProposal(rank)));
    });
    return button;
  }

  function item(rank) {
    const gpm = Words.whole(Math.floor(NextSource.number("gained_gpm", rank)));
    const parcels = Words.whole(NextSource.number("parcels_gaining", rank));
    const met = NextSource.number("newly_held", rank);
    const meeting = met > 0 ? `; ${Words.whole(met)} more meet it` : met < 0 ? `; ${Words.whole(-met)} fewer meet it` : "";
    const cost = NextSource.number("cost", rank);
    const planned = NextSource.number("planned", rank) === 1 ? "Planned already. " : "";
    return element(
      "li", "",
      element("b", "", element("bdi", "", NextSource.name(rank))),
      element("p", "", `${planned}${gpm} gpm more of the planned flow for ${parcels} parcels${meeting}; ${Number.isNaN(cost) ? "its cost is not known" : `costs ${Words.whole(cost)}`}.`),
      element("p", "small", "What it rests on and takes: ", element("bdi", "", NextSource.text("what_to_do", rank)), "."),
      onMap(rank),
    );
  }

  function fill() {
    document.getElementById("next-said").textContent =
      NextSource.count > 0
        ? "Each is worked out as the whole result is, with one more source among the others; each stands with those before it. They are proposals: nothing on the other sheets counts them. proposals.html beside this page has a page to print for each, with map, cost, worksheet and whom to ask."
        : "No place that may be had gains anything. The layer proposal_candidates in supply.gpkg says of each why.";
    document.getElementById("next-list").replaceChildren(...Array.from({ length: NextSource.count }, (_, rank) => item(rank)));
    const years = Packed.table("proposal_years").rows > 0 ? [Tables.shown("proposal_years")] : [];
    const without = ["standing", "standing_by", "what_to_do"];
    document.getElementById("next-tables").replaceChildren(...(NextSource.count > 0 ? [Tables.shown("source_proposals", { without })] : []), ...years);
  }

  return { fill };
})();
