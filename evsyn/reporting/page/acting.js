// What the page does beyond being read: place a count, sort and filter, show a row's source.
(() => {
  const data = JSON.parse(document.getElementById("figures").textContent);
  const say = saying(data.words);
  const make = (name, text, attributes = {}) => {
    const made = document.createElement(name);
    if (text) made.textContent = text;
    Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
    return made;
  };

  const startPlacing = () => {
    const form = document.getElementById("place-form");
    if (!form) return;
    const [outcome, level, cases, events] =
      ["outcome", "level", "cases", "events"].map((name) => document.getElementById(`place-${name}`));
    const as = document.getElementById("place-as");
    const out = document.getElementById("tried");
    form.hidden = false;
    const chosen = () => data.outcomes[Number(outcome.value)];
    const fillLevels = () => {
      level.replaceChildren(...chosen().levels.map((one, i) => make("option", one.label, { value: i })));
      as.textContent = chosen().as;
    };
    const show = () => {
      const n = Number(cases.value);
      const x = Number(events.value);
      const isWhole = [cases, events].every((one) => /^\d{1,6}$/.test(one.value.trim()));
      if (!isWhole || n < 1 || n > data.most || x > n) {
        out.replaceChildren(make("p", say.fill("faulty", { most: data.most })));
        return;
      }
      const held = chosen().levels[Number(level.value)];
      const title = make("h3", `${chosen().label} (${held.label})`);
      if (!held.x) {
        out.replaceChildren(title, ...held.remarks.map((said) => make("p", said)));
        return;
      }
      const found = placing.place(x, n, held, data.tail);
      const table = make("table", "", { class: "chances" });
      const body = make("tbody");
      say.chances(found).forEach(([name, chance, digits]) => {
        const row = make("tr");
        row.append(make("th", name, { scope: "row" }), make("td", chance, { "data-chance": digits }));
        body.append(row);
      });
      table.append(make("caption", data.words.chances), body);
      const said = say.sentences(x, n, chosen(), held, found).filter(Boolean);
      out.replaceChildren(title, ...said.map((text) => make("p", text)), againstEach(x, n, held), table);
    };
    const againstEach = (x, n, held) => {
      const heads = ["each_row", "each_range", "each_verdict"].map((name) => data.words[name]);
      const [table, head, body] = ["table", "thead", "tbody"].map((name) => make(name));
      table.className = "each";
      const top = make("tr");
      top.append(...heads.map((text) => make("th", text, { scope: "col" })));
      head.append(top);
      chosen().levels.filter((one) => one.x).forEach((one) => {
        const row = make("tr", "", one === held ? { class: "held" } : {});
        const told = say.row(n, placing.place(x, n, one, data.tail));
        row.append(make("th", one.label, { scope: "row" }));
        row.append(...told.map((text, i) => make("td", text, { "data-label": heads[i + 1] })));
        body.append(row);
      });
      table.append(make("caption", data.words.each), head, body);
      return table;
    };
    outcome.replaceChildren(...data.outcomes.map((one, i) => make("option", one.label, { value: i })));
    outcome.addEventListener("change", fillLevels);
    form.addEventListener("submit", (event) => { event.preventDefault(); show(); });
    fillLevels();

    // An address that ends in #try=outcome/stratum=level:events:cases opens with that count placed.
    const fromAddress = () => {
      const asked = /^#try=(.+):(\d{1,6}):(\d{1,6})$/.exec(window.location.hash);
      if (!asked) return;
      const key = decodeURIComponent(asked[1]);
      const at = data.outcomes.findIndex((one) => one.levels.some((held) => held.key === key));
      if (at < 0) { out.replaceChildren(make("p", data.words.unknown)); return; }
      outcome.value = String(at);
      fillLevels();
      level.value = String(chosen().levels.findIndex((held) => held.key === key));
      [events.value, cases.value] = [asked[2], asked[3]];
      show();
      form.scrollIntoView();
    };
    window.addEventListener("hashchange", fromAddress);
    fromAddress();
  };

  const startSorting = () => {
    const table = document.getElementById("evidence-table");
    const tools = document.getElementById("evidence-tools");
    if (!table || !tools) return;
    const body = table.tBodies[0];
    const rows = [...body.rows];
    const key = (row, column) => {
      const text = row.cells[column].textContent;
      const count = /^([\d,]+) of ([\d,]+)/.exec(text);
      if (!count) return text.toLowerCase();
      const [part, all] = count.slice(1).map((one) => Number(one.replaceAll(",", "")));
      return part / all;
    };
    [...table.tHead.rows[0].cells].forEach((cell, column) => {
      const button = make("button", cell.textContent, { type: "button" });
      cell.replaceChildren(button);
      button.addEventListener("click", () => {
        const isUp = cell.getAttribute("aria-sort") === "ascending";
        [...table.tHead.rows[0].cells].forEach((other) => other.removeAttribute("aria-sort"));
        cell.setAttribute("aria-sort", isUp ? "descending" : "ascending");
        const way = isUp ? -1 : 1;
        const compare = (a, b) => (typeof a === "number" ? a - b : a.localeCompare(b));
        rows.sort((a, b) => way * compare(key(a, column), key(b, column)));
        body.append(...rows);
      });
    });
    const wanted = document.getElementById("evidence-filter");
    const outcome = document.getElementById("evidence-outcome");
    const number = document.getElementById("evidence-number");
    const names = [...new Set(rows.map((row) => row.cells[1].textContent))];
    names.forEach((name) => outcome.append(make("option", name, { value: name })));
    const filter = () => {
      const text = wanted.value.trim().toLowerCase();
      let shown = 0;
      rows.forEach((row) => {
        const isOf = !outcome.value || row.cells[1].textContent === outcome.value;
        row.hidden = !(isOf && row.textContent.toLowerCase().includes(text));
        shown += row.hidden ? 0 : 1;
      });
      number.textContent = say.fill("rows", { shown, all: rows.length });
    };
    wanted.addEventListener("input", filter);
    outcome.addEventListener("change", filter);
    tools.hidden = false;
  };

  // One stop of the Tab key a figure; arrows move along its rows.
  const startSources = () => {
    document.querySelectorAll("figure > .wide, figure > .narrow").forEach((drawing) => {
      const named = [...drawing.querySelectorAll("g")].filter((row) => row.querySelector(":scope > title"));
      const rows = named.map((row) => row.closest("a") || row);
      const told = drawing.closest("figure").querySelector(".source");
      if (!rows.length || !told) return;
      const words = (row) => row.querySelector("title").textContent;
      const show = (row) => { told.textContent = words(row); };
      rows.forEach((row, i) => {
        row.setAttribute("tabindex", i ? "-1" : "0");
        if (row.tagName !== "a") row.setAttribute("role", "img");
        row.setAttribute("aria-label", words(row));
        row.addEventListener("focus", () => show(row));
        row.addEventListener("pointerenter", () => show(row));
        row.addEventListener("keydown", (event) => {
          const to = { ArrowDown: i + 1, ArrowUp: i - 1, Home: 0, End: rows.length - 1 }[event.key];
          if (to === undefined || !rows[to]) return;
          event.preventDefault();
          row.setAttribute("tabindex", "-1");
          rows[to].setAttribute("tabindex", "0");
          rows[to].focus();
        });
      });
    });
  };

  // What stands open is closed on a narrow screen; paper and links open it again.
  const startFolding = () => {
    const all = [...document.querySelectorAll("details")];
    if (window.matchMedia("(max-width:779px)").matches) all.forEach((one) => { one.open = false; });
    const reveal = () => {
      const asked = document.getElementById(window.location.hash.slice(1));
      if (!asked) return;
      for (let one = asked; one; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
      asked.scrollIntoView();
    };
    window.addEventListener("hashchange", reveal);
    window.addEventListener("beforeprint", () => all.forEach((one) => { if (one.matches(".open")) one.open = true; }));
    if (window.location.hash && !window.location.hash.startsWith("#try=")) reveal();
  };

  startFolding();
  startSources();
  startSorting();
  startPlacing();
})();
