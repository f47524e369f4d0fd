"use strict";
// Places a count among ordinary new units: nothing but sums of binomial chances.
const placing = (() => {
  const logFactorial = [0];
  const factorial = (n) => {
    while (logFactorial.length <= n) {
      logFactorial.push(logFactorial[logFactorial.length - 1] + Math.log(logFactorial.length));
    }
    return logFactorial[n];
  };

  // Chance of 0, 1, ..., n events, averaged over rates given as log-odds x with weights w.
  const pmf = (n, x, w) => {
    const ways = Array.from({ length: n + 1 }, (_, j) => factorial(n) - factorial(j) - factorial(n - j));
    const sums = new Array(n + 1).fill(0);
    for (let i = 0; i < x.length; i += 1) {
      const hit = -Math.log1p(Math.exp(-x[i]));
      const miss = -Math.log1p(Math.exp(x[i]));
      for (let j = 0; j <= n; j += 1) {
        sums[j] += w[i] * Math.exp(ways[j] + j * hit + (n - j) * miss);
      }
    }
    return sums;
  };

  const total = (chances, from, to) => {
    let sum = 0;
    for (let j = from; j <= to; j += 1) sum += chances[j];
    return Math.min(1, sum);
  };

  // The counts at which a verdict is given; tails count the observed value.
  const limits = (chances, tail) => {
    const n = chances.length - 1;
    let low = 0;
    let high = n;
    let below = 0;
    let above = 0;
    while (low <= n && below + chances[low] <= tail) { below += chances[low]; low += 1; }
    while (high >= 0 && above + chances[high] <= tail) { above += chances[high]; high -= 1; }
    return { low, high, below, above };
  };

  // Exact two-sided interval of a share, by halving.
  const exact = (events, n, tail) => {
    const solve = (reaches) => {
      let low = -40;
      let high = 40;
      for (let step = 0; step < 80; step += 1) {
        const middle = (low + high) / 2;
        if (reaches(pmf(n, [middle], [1]))) high = middle; else low = middle;
      }
      return 1 / (1 + Math.exp(-(low + high) / 2));
    };
    return {
      low: events === 0 ? 0 : solve((c) => total(c, events, n) >= tail),
      high: events === n ? 1 : solve((c) => total(c, 0, events) <= tail),
    };
  };

  const place = (events, n, level, tail) => {
    const chances = pmf(n, level.x, level.w);
    const reach = limits(chances, tail);
    const mayJudge = level.enough && level.spread;
    const more = mayJudge && level.more;
    const fewer = mayJudge && level.fewer;
    const firstMore = more && reach.high < n ? reach.high + 1 : null;
    const lastFewer = fewer && reach.low > 0 ? reach.low - 1 : null;
    const judged = firstMore !== null || lastFewer !== null;
    let verdict = "none";
    if (judged && events > reach.high) verdict = more ? "more" : "none";
    else if (judged && events < reach.low) verdict = fewer ? "fewer" : "none";
    else if (judged) verdict = "within";
    let why = null;
    if (verdict === "none") {
      if (!level.enough) why = "few";
      else if (!level.spread) why = "spread";
      else if (level.mix) why = "mix";
      else why = reach.low === 0 && reach.high === n ? "cases" : "window";
    }
    return {
      verdict, why, low: reach.low, high: reach.high, firstMore, lastFewer,
      chanceMore: reach.above, chanceFewer: reach.below,
      atLeast: total(chances, events, n), atMost: total(chances, 0, events),
      below: total(chances, 0, events - 1), same: chances[events], above: total(chances, events + 1, n),
      interval: exact(events, n, tail),
    };
  };

  return { pmf, place };
})();
