// Stretches a chart over time: + and − or the wheel zoom, arrows or dragging move, 0 shows all; the ticks along the foot are drawn anew for what
// is shown. Without script the whole chart stands there.
(() => {
  const shapes = { line: ["x1", "x2"], circle: ["cx"], text: ["x"], rect: ["x"] };

  const read = svg => {
    const [left, right, from, to] = svg.dataset.span.split(" ").map(Number);
    const inside = x => x >= left - 0.5 && x <= right + 0.5;
    const parts = [];
    const ticks = [...svg.querySelectorAll(".tick")];
    for (const element of svg.querySelectorAll(":is(line, circle, text, rect, polyline):not(.tick)")) {
      if (element.tagName === "polyline") {
        parts.push({ element, points: element.getAttribute("points").split(" ").map(point => point.split(",").map(Number)) });
        continue;
      }
      const places = shapes[element.tagName].map(name => Number(element.getAttribute(name)));
      if (element.tagName === "rect") {
        places.push(places[0] + Number(element.getAttribute("width")));
      }
      // What spans the whole width or lies outside it stays where it is.
      if (places.every(inside) && !(places.length > 1 && places[1] - places[0] > right - left - 1)) {
        parts.push({ element, places });
      }
    }
    return { svg, left, right, from, to, parts, start: from, end: to, whole: ticks, ticks, minus: svg.dataset.minus, decimal: svg.dataset.decimal };
  };

  // As the server writes it: the locale's signs, no grouping, never −0.
  const written = (chart, value, decimals) => {
    const figure = Math.abs(value).toFixed(decimals).replace(".", chart.decimal);
    return value < 0 && Number(value.toFixed(decimals)) !== 0 ? chart.minus + figure : figure;
  };

  // 1, 2 or 5 of some power of ten, about so many to the width, and the decimals that tell one from the next. The server does the same with six.
  const tickOf = (span, count) => {
    const rough = span / count;
    const exponent = Math.floor(Math.log10(rough));
    const power = 10 ** exponent;
    const times = [1, 2, 5].find(one => rough / power <= one) ?? 10;
    return { tick: times * power, decimals: Math.max(0, -(times === 10 ? exponent + 1 : exponent)) };
  };

  const tickAt = (chart, place, words) => {
    const [line, text] = ["line", "text"].map(name => chart.whole.find(one => one.tagName === name).cloneNode());
    line.setAttribute("x1", place);
    line.setAttribute("x2", place);
    text.setAttribute("x", place);
    text.textContent = words;
    return [line, text];
  };

  // Fewer where the figures would run into each other; a figure that reaches into the unit at the end of the foot is left out.
  const drawTicks = chart => {
    const put = next => {
      chart.ticks.forEach(one => one.remove());
      chart.ticks = next;
      chart.svg.append(...next);
    };
    if (chart.start === chart.from && chart.end === chart.to || chart.whole.length === 0) {
      put(chart.whole);
      return;
    }
    const { left, right, start, end } = chart;
    for (const count of [6, 3, 2, 1]) {
      const { tick, decimals } = tickOf(end - start, count);
      const next = [];
      for (let n = Math.ceil(start / tick - 1e-9); n * tick <= end + 1e-9 * tick; n++) {
        next.push(...tickAt(chart, left + (n * tick - start) / (end - start) * (right - left), written(chart, n * tick, decimals)));
      }
      put(next);
      const texts = next.filter(one => one.tagName === "text");
      const widest = Math.max(0, ...texts.map(one => one.getComputedTextLength()));
      const last = texts.at(-1);
      if (last && Number(last.getAttribute("x")) + last.getComputedTextLength() / 2 > right + 4) last.remove();
      if (widest + 8 <= tick / (end - start) * (right - left)) return;
    }
  };

  const cutLine = (points, x, left, right) => {
    const shown = [];
    for (let i = 0; i < points.length; i++) {
      const here = [x(points[i][0]), points[i][1]];
      const before = i > 0 ? [x(points[i - 1][0]), points[i - 1][1]] : null;
      if (before) {
        for (const edge of [left, right]) {
          if ((before[0] - edge) * (here[0] - edge) < 0) {
            shown.push([edge, before[1] + (here[1] - before[1]) * (edge - before[0]) / (here[0] - before[0])]);
          }
        }
      }
      if (here[0] >= left && here[0] <= right) shown.push(here);
    }
    return shown.map(point => `${point[0].toFixed(2)},${point[1].toFixed(2)}`).join(" ");
  };

  const draw = (chart, words) => {
    const { left, right, from, to, start, end } = chart;
    const old = (to - from) / (right - left);
    const x = place => left + (from + (place - left) * old - start) / (end - start) * (right - left);
    for (const { element, places, points } of chart.parts) {
      if (points) {
        element.setAttribute("points", cutLine(points, x, left, right));
        continue;
      }
      const now = places.map(x);
      element.setAttribute("visibility", now.every(one => one < left || one > right) && !(now.length > 1 && now[0] < left && now[1] > right) ? "hidden" : "visible");
      if (element.tagName === "rect") {
        const [a, b] = now.map(one => Math.min(right, Math.max(left, one)));
        element.setAttribute("x", a);
        element.setAttribute("width", Math.max(0, b - a));
      } else {
        shapes[element.tagName].forEach((name, i) => element.setAttribute(name, now[i]));
      }
    }
    drawTicks(chart);
    const decimals = Math.max(2, tickOf(end - start, 6).decimals);
    words.textContent = start === from && end === to ? "" : `${written(chart, start, decimals)} to ${written(chart, end, decimals)} ms`;
  };

  const zoomed = (chart, by, about) => {
    const all = chart.to - chart.from;
    const span = Math.min(all, Math.max(all / 500, (chart.end - chart.start) * by));
    const share = (about - chart.start) / (chart.end - chart.start);
    place(chart, about - span * share, span);
  };

  const place = (chart, start, span) => {
    chart.start = Math.min(chart.to - span, Math.max(chart.from, start));
    chart.end = chart.start + span;
  };

  const begin = figure => {
    const svg = figure.querySelector("svg[data-span]");
    if (!svg || figure.dataset.zoomable) {
      return;
    }
    figure.dataset.zoomable = "yes";
    const chart = read(svg);
    const words = document.createElement("p");
    words.className = "small soft zoom-range";
    words.setAttribute("role", "status");
    figure.append(words);
    const time = event => {
      const box = svg.getBoundingClientRect();
      const at = (event.clientX - box.left) / box.width * svg.viewBox.baseVal.width;
      return chart.start + (at - chart.left) / (chart.right - chart.left) * (chart.end - chart.start);
    };
    figure.addEventListener("keydown", event => {
      const span = chart.end - chart.start;
      const middle = chart.start + span / 2;
      const act = {
        "+": () => zoomed(chart, 0.5, middle), "=": () => zoomed(chart, 0.5, middle), "-": () => zoomed(chart, 2, middle), "0": () => place(chart, chart.from, chart.to - chart.from),
        ArrowLeft: () => place(chart, chart.start - span / 5, span), ArrowRight: () => place(chart, chart.start + span / 5, span),
      }[event.key];
      if (act && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        act();
        draw(chart, words);
      }
    });
    svg.addEventListener("wheel", event => {
      if (document.activeElement !== figure) {
        return; // a page that is scrolled past a chart goes on scrolling
      }
      event.preventDefault();
      zoomed(chart, event.deltaY > 0 ? 1.25 : 0.8, time(event));
      draw(chart, words);
    }, { passive: false });
    let held = null;
    svg.addEventListener("pointerdown", event => { held = time(event); svg.setPointerCapture(event.pointerId); });
    svg.addEventListener("pointermove", event => {
      if (held !== null) {
        place(chart, chart.start + held - time(event), chart.end - chart.start);
        draw(chart, words);
      }
    });
    for (const end of ["pointerup", "pointercancel"]) svg.addEventListener(end, () => { held = null; });
    svg.addEventListener("dblclick", event => { zoomed(chart, 0.5, time(event)); draw(chart, words); });
  };

  const all = () => document.querySelectorAll("figure[data-zoom]").forEach(begin);
  document.addEventListener("charts", all);
  all();
})();
