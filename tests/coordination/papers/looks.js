// What a person who cannot see well would stumble over; gives a list of complaints.
(() => {
  const complaints = [];
  const say = (what, node) => complaints.push(
    what + ": " + (node.outerHTML || node.textContent).slice(0, 160));
  const shown = node => node.checkVisibility && node.checkVisibility();

  if (!document.documentElement.lang) complaints.push("no language");
  if (document.querySelectorAll("main").length !== 1) complaints.push("not one main");
  if (document.querySelectorAll("h1").length !== 1) complaints.push("not one h1");
  let before = 0;
  for (const head of document.querySelectorAll("h1,h2,h3,h4,h5,h6")) {
    const level = Number(head.tagName[1]);
    if (level > before + 1) say("a heading level is skipped", head);
    if (!head.textContent.trim()) say("an empty heading", head);
    before = level;
  }

  const ids = new Set();
  for (const node of document.querySelectorAll("[id]")) {
    if (ids.has(node.id)) say("an id twice", node);
    ids.add(node.id);
  }
  for (const link of document.querySelectorAll("a")) {
    const to = link.getAttribute("href") || link.getAttribute("xlink:href");
    if (to === null) continue;
    if (!to.startsWith("#")) say("a link that leads away", link);
    else if (!ids.has(to.slice(1))) say("a link that leads nowhere", link);
    if (!(link.textContent.trim() || link.getAttribute("aria-label"))) say("a silent link", link);
  }
  for (const used of document.querySelectorAll("[aria-labelledby]"))
    for (const name of used.getAttribute("aria-labelledby").split(" "))
      if (!ids.has(name)) say("a label that is not there", used);

  for (const table of document.querySelectorAll("table")) {
    if (!table.caption || !table.caption.textContent.trim()) say("a table without caption", table);
    for (const head of table.querySelectorAll("th"))
      if (!["col", "row"].includes(head.scope)) say("a head without scope", head);
    for (const head of table.querySelectorAll("thead th"))
      if (!head.textContent.trim()) say("an empty head", head);
    if (!table.tHead) say("a table without heads", table);
  }
  for (const picture of document.querySelectorAll("img"))
    if (!picture.alt) say("a picture without words", picture);
  for (const picture of document.querySelectorAll("svg"))
    if (!picture.parentElement.closest("svg")) {
      const role = picture.getAttribute("role");
      const words = picture.getAttribute("aria-label") || (picture.querySelector("title") || {}).textContent;
      if (!role || !words) say("a drawing without role or words", picture);
    }
  for (const box of document.querySelectorAll("*")) {
    const style = getComputedStyle(box);
    if (!["auto", "scroll"].includes(style.overflowX) || box.scrollWidth <= box.clientWidth) continue;
    if (box.tabIndex < 0) say("a box that keys cannot scroll", box);
    if (!box.getAttribute("aria-label")) say("a box without a name", box);
  }
  for (const fold of document.querySelectorAll("details"))
    if (!fold.querySelector("summary")) say("a fold without a summary", fold);

  const parts = colour => (colour.match(/[\d.]+/g) || []).map(Number);
  const light = ([r, g, b]) => {
    const [x, y, z] = [r, g, b].map(v => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * x + 0.7152 * y + 0.0722 * z;
  };
  const behind = node => {
    for (let each = node; each; each = each.parentElement) {
      const colour = getComputedStyle(each).backgroundColor;
      const [, , , alpha = 1] = parts(colour);
      if (parts(colour).length && alpha === 1) return parts(colour);
    }
    return [255, 255, 255];
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const holder = node.parentElement;
    if (!node.textContent.trim() || holder.closest("style,title,desc,.unseen")) continue;
    if (!shown(holder)) continue;
    const style = getComputedStyle(holder);
    const drawn = holder.closest("svg");
    // White in a drawing stands on the red mark of a fail.
    const marked = drawn && holder.getAttribute("fill") === "#ffffff";
    const back = marked ? [0xd9, 0x30, 0x25] : behind(holder);
    const [a, b] = [light(parts(drawn ? style.fill : style.color)), light(back)];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    texts += 1;
    if (ratio < (large ? 3 : 4.5)) say("contrast " + ratio.toFixed(2), holder);
  }
  if (texts < 50) complaints.push("hardly any text was looked at: " + texts);
  return complaints;
})()
