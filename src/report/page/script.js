'use strict';
(() => {
  const all = (within, what) => [...within.querySelectorAll(what)];
  const make = (tag, name, parent) => {
    const made = document.createElement(tag);
    made.className = name;
    parent.append(made);
    return made;
  };
  const notes = document.getElementById('notes');
  const said = document.getElementById('said');
  const bar = document.getElementById('bar');
  document.documentElement.classList.add('js');

  // Notes: a pressed button is a line of the text, with the moment it was pressed on the site's clock.
  const moment = () => new Date().toLocaleString('sv-SE', { timeZone: notes.dataset.zone }).slice(0, 16);
  const lines = () => notes.value.split('\n').filter((line) => line.trim() !== '');
  const show = (kept) => {
    notes.value = kept.map((line) => line + '\n').join('');
    tell();
  };
  const tell = () => {
    const many = lines().length;
    bar.classList.toggle('on', many > 0);
    bar.textContent = many === 1 ? '1 note to send' : many + ' notes to send';
  };
  const written = new Map();
  const press = (box) => {
    if (!box.checked) {
      show(lines().filter((line) => line !== written.get(box)));
      return;
    }
    const some = box.closest('.seens')?.parentElement.querySelector('.some input')?.value ?? '';
    written.set(box, moment() + ' ' + box.value + (/^\d+$/.test(some) ? ' ' + some : ''));
    show([...lines(), written.get(box)]);
  };
  for (const box of all(document, '.ev input')) box.addEventListener('change', () => press(box));
  notes.addEventListener('input', tell);
  document.getElementById('copy').addEventListener('click', async () => {
    try {
      await navigator.clipboard.writeText(notes.value);
      said.textContent = 'Copied.';
    } catch {
      notes.select();
      said.textContent = 'Marked: copy it from here.';
    }
  });
  document.getElementById('send').addEventListener('click', async () => {
    if (!navigator.share) {
      location.href = 'mailto:?subject=Graft%20notes&body=' + encodeURIComponent(notes.value);
      return;
    }
    try {
      await navigator.share({ text: notes.value });
    } catch {
      said.textContent = 'Not sent.';
    }
  });

  // Charts: one slider a graft moves a line through its three charts and reads out the day.
  const left = 34, width = 322;
  const read = (card) => {
    const charts = all(card, 'svg');
    const rows = all(card, 'table').map((table) => all(table, 'th[scope=row]').map((head) => head.parentElement));
    const days = rows[0].length;
    const place = card.querySelector('.seekhere');
    const seek = make('input', 'seek', place);
    Object.assign(seek, { type: 'range', min: 0, max: days - 1, value: place.dataset.now });
    seek.setAttribute('aria-label', place.dataset.label);
    const seen = make('p', 'seen', place);
    const marks = charts.map((chart) => {
      const mark = chart.querySelector('path').cloneNode();
      mark.removeAttribute('d');
      mark.setAttribute('class', 'at');
      chart.append(mark);
      return mark;
    });
    const words = (row, table) =>
      [...row.cells].slice(1).map((cell, i) => [table.tHead.rows[0].cells[i + 1].textContent, cell.textContent.trim()])
        .filter(([, value]) => value !== '').map((pair) => pair.join(' ')).join(', ');
    const go = () => {
      const day = Number(seek.value);
      const x = left + (width * (day + 0.5)) / days;
      marks.forEach((mark) => mark.setAttribute('d', 'M' + x + ' 14V' + mark.parentElement.dataset.foot));
      seen.textContent = rows[0][day].cells[0].textContent.trim() + ': ' +
        rows.map((of) => words(of[day], of[day].closest('table'))).join('; ');
      seek.setAttribute('aria-valuetext', seen.textContent);
    };
    seek.addEventListener('input', go);
    charts.forEach((chart) => chart.addEventListener('pointermove', (event) => {
      const box = chart.getBoundingClientRect();
      const x = ((event.clientX - box.left) / box.width) * 360;
      seek.value = Math.floor(((x - left) / width) * days);
      go();
    }));
    seen.textContent = 'Move along the charts to read out a day.';
  };
  all(document, '.card').forEach(read);
})();
