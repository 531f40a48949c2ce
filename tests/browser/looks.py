"""What is looked at on every sheet of the kiosk: does it fit, can it be read, can it be pressed, does axe object."""

from typing import Any

# Nothing scrolls, nothing lies over the frame or the title block, no words are cut off, nothing lies on another.
FIT = """() => {
  const found = [];
  const frame = document.querySelector('.frame').getBoundingClientRect();
  const foot = document.querySelector('footer').getBoundingClientRect();
  const page = document.documentElement;
  if (page.scrollHeight > innerHeight + 1) found.push('scrolls down to ' + page.scrollHeight);
  if (page.scrollWidth > innerWidth + 1) found.push('scrolls right to ' + page.scrollWidth);
  const named = (e) => e.tagName.toLowerCase() + '.' + e.getAttribute('class') + ' ' + e.textContent.trim().slice(0, 30);
  for (const e of document.querySelectorAll('main *')) {
    if ((e.closest('svg') && e.tagName !== 'svg') || e.classList.contains('aside')) continue;
    const r = e.getBoundingClientRect();
    if (!r.width || !r.height) continue;
    if (r.bottom > foot.top + 1) found.push(named(e) + ': ' + Math.round(r.bottom - foot.top) + ' px into the title block');
    if (r.right > frame.right + 1 || r.left < frame.left - 1) found.push(named(e) + ': over the frame');
  }
  for (const e of document.querySelectorAll('.head, .titles > div, .titles dd, .key, h1'))
    if (e.scrollWidth > e.clientWidth + 1) found.push(named(e) + ': cut off');
  for (const side of document.querySelectorAll('.words-side, .draw-side')) {
    const kids = [...side.children].filter((e) => !e.classList.contains('aside') && e.getBoundingClientRect().height > 1);
    kids.forEach((a, i) => kids.slice(i + 1).forEach((b) => {
      const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
      const over = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
      const beside = Math.min(p.right, q.right) - Math.max(p.left, q.left);
      if (over > 1 && beside > 1) found.push(named(a) + ': lies on ' + named(b));
    }));
  }
  return found;
}"""

# Text is 22 px or more, answers and keys are 20 mm (76 px), the head's keys 64 px, and 3 mm (12 px) lie between two.
REACH = """(hand) => {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const text = walker.currentNode.textContent.trim();
    const holder = walker.currentNode.parentElement;
    if (!text || !holder.getClientRects().length || holder.closest('.aside, noscript, title, desc')) continue;
    let size = parseFloat(getComputedStyle(holder).fontSize);
    const drawing = holder.closest('svg');
    if (drawing && drawing.viewBox.baseVal && drawing.viewBox.baseVal.width) {
      if (hand) continue;
      size *= drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
    }
    if (size && size < 21.9) found.push('text of ' + size.toFixed(1) + ' px: ' + text.slice(0, 40));
  }
  const targets = [...document.querySelectorAll('.key, .part-row, .typed')].filter((e) => e.getClientRects().length);
  const boxes = targets.map((e) => [e, e.getBoundingClientRect()]);
  for (const [e, r] of boxes) {
    const least = e.closest('.help') ? 64 : 76;
    if (r.height < least - 0.1 || r.width < least - 0.1)
      found.push('target of ' + Math.round(r.width) + ' x ' + Math.round(r.height) + ': ' + e.textContent.trim().slice(0, 30));
  }
  boxes.forEach(([e, p], i) => boxes.slice(i + 1).forEach(([f, q]) => {
    const down = Math.max(p.top, q.top) - Math.min(p.bottom, q.bottom);
    const along = Math.max(p.left, q.left) - Math.min(p.right, q.right);
    if (Math.max(down, along) < 11.9)
      found.push('only ' + Math.max(down, along).toFixed(1) + ' px between ' + e.textContent.trim() + ' and ' + f.textContent.trim());
  }));
  return found;
}"""


# Desk and office: text under 12 px.
SMALL_TEXT = """() => {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const text = walker.currentNode.textContent.trim();
    const holder = walker.currentNode.parentElement;
    if (!text || !holder.getClientRects().length) continue;
    let size = parseFloat(getComputedStyle(holder).fontSize);
    const drawing = holder.closest('svg');
    if (drawing && drawing.viewBox.baseVal && drawing.viewBox.baseVal.width)
      size *= drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
    if (size < 11.95) found.push([text.slice(0, 40), Math.round(size * 10) / 10]);
  }
  return found;
}"""


def axe_faults(page: Any) -> list[str]:
    """Return what axe finds of any weight, contrast of 7 : 1 included."""
    from axe_playwright_python.sync_playwright import Axe

    rules = {"color-contrast-enhanced": {"enabled": True}}
    found = Axe().run(page, options={"resultTypes": ["violations"], "rules": rules})
    return [
        f"{fault['id']} ({fault['impact']}): {fault['nodes'][0]['html'][:160]}"
        for fault in found.response["violations"]
    ]
