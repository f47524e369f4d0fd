// Says a placed count in the sentences the page carries, with its digits.
const saying = (words) => {
  const fill = (name, values) => words[name].replace(/\{(\w+)\}/g, (_, key) => values[key]);
  const whole = (n) => String(n).replace(/\B(?=(\d{3})+$)/g, ",");
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  // One decimal, a tie to the even digit, as everywhere else in these figures.
  const one = (value) => {
    if (Number.isInteger(value * 4) && !Number.isInteger(value * 2)) {
      const under = Math.floor(value * 10);
      return ((under % 2 === 0 ? under : under + 1) / 10).toFixed(1);
    }
    return value.toFixed(1);
  };

  const percent = (share) => {
    if (share > 0 && share < 0.0005) return words.under;
    if (share > 0.9995 && share < 1) return words.over;
    return `${one(100 * share)}%`;
  };

  const often = (chance) => {
    if (chance < 0.001) return words.often_rare;
    if (chance >= 0.95) return words.often_all;
    if (chance >= 0.15) return fill("often_ten", { n: Math.round(10 * chance) });
    return fill("often_one", { n: whole(Math.round(1 / chance)) });
  };

  const called = (found, n) => {
    const reachMore = () =>
      found.firstMore === n ? whole(n) : fill("or_more", { n: whole(found.firstMore) });
    const reachFewer = () =>
      found.lastFewer === 0 ? "0" : fill("or_fewer", { n: whole(found.lastFewer) });
    const side = (exists, reach, chance, way) => {
      if (!exists) return words[`never_${way}`];
      const values = { reach: reach(), chance: percent(chance) };
      if (found.verdict !== way) return fill(`would_${way}`, values);
      const isMany = way === "more" ? found.firstMore !== n : found.lastFewer !== 0;
      return fill(isMany ? "called_many" : "called_one", values);
    };
    const more = side(found.firstMore !== null, reachMore, found.chanceMore, "more");
    const fewer = side(found.lastFewer !== null, reachFewer, found.chanceFewer, "fewer");
    return found.verdict === "fewer"
      ? fill("both", { first: fewer, second: more })
      : fill("both", { first: more, second: fewer });
  };

  const action = (verdict, better) => {
    if (verdict === "within") return words.action_none;
    return (verdict === "more") === (better === "fewer") ? words.action_bad : words.action_good;
  };

  const range = (found) => fill(found.low === found.high ? "range_one" : "range", {
    low: whole(found.low), high: whole(found.high),
  });

  const sentences = (events, n, outcome, level, found) => {
    const isHigh = found.atLeast <= found.atMost;
    const alone = isHigh ? events === n : events === 0;
    const reach = alone ? whole(events) : fill(isHigh ? "or_more" : "or_fewer", { n: whole(events) });
    const values = {
      seen: fill("seen", { events: whole(events), total: whole(n) }),
      range: range(found),
      cases: n === 1 ? words.one_case : fill("cases", { n: whole(n) }),
      tail: fill("tail", { reach, total: whole(n) }),
      often: often(isHigh ? found.atLeast : found.atMost),
      marks: level.marks,
    };
    const count = fill("count", {
      seen: values.seen, share: percent(events / n),
      low: percent(found.interval.low), high: percent(found.interval.high),
    });
    const rest = { total: whole(n), limit: percent(1 - 0.05 ** (1 / n)), from: percent(0.05 ** (1 / n)) };
    let alone95 = "";
    if (events === 0) alone95 = fill("none_seen", rest);
    else if (events === n) alone95 = fill("all_seen", rest);
    const judged = found.verdict === "none"
      ? fill("withheld", { ...values, why: words[`why_${found.why}`] })
      : fill("judged", {
        ...values, side: words[`side_${found.verdict}`],
        action: action(found.verdict, outcome.better), called: called(found, n),
      });
    const mean = fill("average", { mean: one(n * level.mean), events: outcome.events });
    return [count, alone95, judged, mean, ...level.remarks, words.means];
  };

  // A whole per cent, since the studies do not tell more.
  const rough = (chance) => {
    if (chance > 0 && chance < 0.005) return words.under_one;
    if (chance < 1 && chance > 0.995) return words.over_one;
    return `${Math.round(100 * chance)}%`;
  };

  const chances = (found) => [
    [words.fewer, found.below], [words.as_many, found.same], [words.more, found.above],
    [words.at_least, found.atLeast], [words.at_most, found.atMost],
  ].map(([name, chance]) => [capital(name), rough(chance), chance.toFixed(4)]);

  // One row of the table that sets the same count against each level.
  const row = (n, found) => [
    fill("reach", { range: range(found), n: whole(n) }), words[`short_${found.why || found.verdict}`],
  ];

  return { fill, sentences, chances, row };
};
