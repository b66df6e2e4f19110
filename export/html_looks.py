"""What the page for a phone looks like, and its few lines of script. Neither holds anything of a job."""

STYLE = """
:root { color-scheme: light dark; --ink: #1a1a1f; --paper: #ffffff; --soft: #eef0f2; --line: #8b9198;
  --mark: #005a9c; --on-mark: #ffffff; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8eaed; --paper: #16191c; --soft: #262b30;
  --line: #8d949b; --mark: #7cc4ff; --on-mark: #10222f; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 17px/1.45 system-ui, sans-serif; }
header, main > section, footer { padding: 0.6rem 0.9rem; max-width: 60rem; margin: 0 auto; }
h1 { font-size: 1.35rem; margin: 0; overflow-wrap: anywhere; }
h2 { font-size: 1.15rem; margin: 0.6rem 0 0.3rem; }
p { margin: 0.3rem 0; }
.picture { position: relative; background: var(--soft); padding: 0; }
.picture svg { display: block; width: 100%; height: 70vh; touch-action: none; }
.picture g { stroke: var(--line); }
.picture g.wall, .picture g.tile-hole, .picture g.opening, .picture g.tray { stroke: var(--ink); }
.picture g.tile-cut polygon { fill: var(--soft); }
.picture g.tile-whole polygon, .picture g.tile-cut polygon { stroke: var(--line); }
.picture g.tile-whole polygon { fill: var(--paper); }
.picture g text { fill: var(--ink); stroke: none; }
.picture a circle { fill: transparent; stroke: none; }
.picture a:focus circle, .picture a.shown circle { stroke: var(--mark); stroke-width: 1; outline: none; }
.buttons { display: none; position: absolute; right: 0.5rem; top: 0.5rem; gap: 0.4rem; }
.scripted .buttons { display: flex; }
button { font: inherit; font-weight: 700; min-width: 3rem; min-height: 3rem; border: 1px solid var(--line);
  border-radius: 0.5rem; background: var(--paper); color: var(--ink); }
.shown-hole { position: sticky; bottom: 0; padding: 0.7rem 0.9rem; background: var(--mark);
  color: var(--on-mark); font-weight: 600; }
.shown-hole:empty { display: none; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { padding: 0.45rem 0.5rem; border-bottom: 1px solid var(--line); text-align: right;
  vertical-align: top; }
th { font-weight: 600; font-size: 0.85rem; }
th.left, td.left { text-align: left; }
tr:target td, tr.shown td { background: var(--mark); color: var(--on-mark); }
td.strong { font-weight: 700; }
@media (max-width: 40rem) {
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tr { display: block; padding: 0.4rem 0; border-bottom: 2px solid var(--line); }
  td { display: flex; justify-content: space-between; gap: 1rem; border: 0; padding: 0.1rem 0.5rem; }
  td::before { content: attr(data-head); font-weight: 400; text-align: left; }
  td.left { text-align: right; }
  td:empty { display: none; }
}
dl { margin: 0; } dt { font-weight: 600; } dd { margin: 0 0 0.5rem; }
footer { font-size: 0.85rem; }
@media print { .buttons, .shown-hole { display: none; } .picture svg { height: auto; } }
"""

SCRIPT = """
'use strict';
(() => {
  const svg = document.querySelector('.picture svg');
  const panel = document.querySelector('.shown-hole');
  const heads = Array.from(document.querySelectorAll('#holes th'), (cell) => cell.textContent);
  document.documentElement.classList.add('scripted');
  const whole = svg.viewBox.baseVal;
  const home = [whole.x, whole.y, whole.width, whole.height];
  let view = home.slice();
  const show = () => svg.setAttribute('viewBox', view.join(' '));
  const perPixel = () => Math.max(view[2] / svg.clientWidth, view[3] / svg.clientHeight);
  const toDrawing = (x, y) => {
    const box = svg.getBoundingClientRect(), scale = perPixel();
    return [view[0] + view[2] / 2 + (x - box.left - box.width / 2) * scale,
            view[1] + view[3] / 2 + (y - box.top - box.height / 2) * scale];
  };
  const zoom = (factor, x, y) => {
    const width = Math.min(home[2] * 1.5, Math.max(home[2] / 40, view[2] * factor));
    factor = width / view[2];
    view = [x - (x - view[0]) * factor, y - (y - view[1]) * factor, view[2] * factor, view[3] * factor];
    show();
  };
  const middle = () => [view[0] + view[2] / 2, view[1] + view[3] / 2];
  const fit = () => { view = home.slice(); show(); };
  document.getElementById('closer').addEventListener('click', () => zoom(0.7, ...middle()));
  document.getElementById('farther').addEventListener('click', () => zoom(1 / 0.7, ...middle()));
  document.getElementById('fit').addEventListener('click', fit);
  svg.addEventListener('wheel', (event) => {
    event.preventDefault();
    zoom(event.deltaY > 0 ? 1.15 : 1 / 1.15, ...toDrawing(event.clientX, event.clientY));
  }, { passive: false });
  svg.addEventListener('keydown', (event) => {
    const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    if (event.key in steps) {
      const [dx, dy] = steps[event.key];
      view[0] += dx * view[2] / 10; view[1] += dy * view[3] / 10; show();
    } else if (event.key === '+' || event.key === '=') { zoom(0.7, ...middle()); }
    else if (event.key === '-') { zoom(1 / 0.7, ...middle()); }
    else if (event.key === '0') { fit(); }
    else { return; }
    event.preventDefault();
  });
  const fingers = new Map();
  let moved = 0;
  const spread = () => {
    const [a, b] = Array.from(fingers.values());
    return b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0;
  };
  svg.addEventListener('pointerdown', (event) => {
    if (fingers.size === 0) { moved = 0; }
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
  });
  svg.addEventListener('pointermove', (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) { return; }
    const far = spread(), many = fingers.size;
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    const dx = event.clientX - before[0], dy = event.clientY - before[1], scale = perPixel();
    moved += Math.abs(dx) + Math.abs(dy);
    if (moved > 6 && !svg.hasPointerCapture(event.pointerId)) { svg.setPointerCapture(event.pointerId); }
    view[0] -= dx * scale / many; view[1] -= dy * scale / many;
    show();
    if (many === 2 && far > 0 && spread() > 0) {
      const [a, b] = Array.from(fingers.values());
      zoom(far / spread(), ...toDrawing((a[0] + b[0]) / 2, (a[1] + b[1]) / 2));
    }
  });
  for (const name of ['pointerup', 'pointercancel']) {
    svg.addEventListener(name, (event) => fingers.delete(event.pointerId));
  }
  const tell = (link, row) => {
    for (const old of document.querySelectorAll('.shown')) { old.classList.remove('shown'); }
    link.classList.add('shown');
    row.classList.add('shown');
    const cells = Array.from(row.cells, (cell) => cell.textContent);
    panel.textContent = cells.map((text, index) => heads[index] + ' ' + text)
      .filter((text, index) => cells[index] && cells[index] !== '\\u2013').join(' \\u00b7 ');
  };
  for (const link of svg.querySelectorAll('a')) {
    link.addEventListener('click', (event) => {
      event.preventDefault();
      if (moved <= 6) { tell(link, document.getElementById(link.getAttribute('href').slice(1))); }
    });
  }
})();
"""
