(() => {
  const key = "bench " + document.body.dataset.key;
  const read = (k, none) => { try { return JSON.parse(localStorage.getItem(k)) ?? none; } catch { return none; } };
  const write = (k, v) => { try { localStorage.setItem(k, JSON.stringify(v)); } catch { /* no store: ticks last as long as the page */ } };
  const boxes = [...document.querySelectorAll("input.tick")];
  const ticked = new Set(read(key, []));
  for (const box of boxes) {
    box.checked = ticked.has(box.dataset.tick);
    box.addEventListener("change", () => {
      const same = boxes.filter((other) => other.dataset.tick === box.dataset.tick);
      for (const other of same) other.checked = box.checked; // the first page stands in both units
      ticked[box.checked ? "add" : "delete"](box.dataset.tick);
      write(key, [...ticked]);
    });
  }
  const cautions = document.querySelectorAll("details.care");
  const answered = () => {
    for (const held of cautions)
      for (const told of held.querySelectorAll(".answered")) told.textContent = held.querySelectorAll(":checked").length;
  };
  const narrow = window.matchMedia("screen and (max-width: 720px)");
  const fold = (printed) => { for (const held of cautions) held.open = printed === true || !narrow.matches; };
  document.addEventListener("change", answered);
  narrow.addEventListener("change", fold);
  window.addEventListener("beforeprint", () => fold(true));
  window.addEventListener("afterprint", fold);
  fold();
  answered();
  const units = document.getElementById("units");
  units.checked = read(key + " units", false);
  units.addEventListener("change", () => write(key + " units", units.checked));
  const on = (id, act) => {
    const button = document.getElementById(id);
    button.hidden = false;
    button.addEventListener("click", act);
  };
  on("print", () => window.print());
  on("pin", () => {
    document.body.classList.add("pinned");
    window.print();
    document.body.classList.remove("pinned");
  });
  on("clear", () => {
    if (!window.confirm("Clear every tick on this sheet?")) return;
    ticked.clear();
    write(key, []);
    for (const box of boxes) box.checked = false;
    answered();
  });
})();
