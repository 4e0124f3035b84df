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
  // Every sentence comes from the page, with {names} to put in: a page has a language.
  const words = JSON.parse(document.getElementById('words').dataset.words);
  const filled = (sentence, named) => sentence.replace(/\{(\w+)\}/g, (slot, name) => named[name] ?? slot);
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
    bar.textContent = many === 0 ? words.notes.none : filled(words.notes.count, { n: many });
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
      said.textContent = words.notes.copied;
    } catch {
      notes.select();
      said.textContent = words.notes.marked;
    }
  });
  document.getElementById('send').addEventListener('click', async () => {
    if (!navigator.share) {
      location.href = 'mailto:?subject=' + encodeURIComponent(words.notes.subject) + '&body=' +
        encodeURIComponent(notes.value);
      return;
    }
    try {
      await navigator.share({ text: notes.value });
    } catch {
      said.textContent = words.notes.not_sent;
    }
  });

  // Hours: whole numbers, each told by its step from the one before (see packed_numbers).
  const signs = Array.from({ length: 92 }, (_, i) => String.fromCharCode(35 + i)).filter((c) => !"&'<>".includes(c)).join('');
  const numbers = (text) => {
    const told = [];
    let last = 0;
    for (let i = 0; i < text.length; i += 1) {
      const sign = signs.indexOf(text[i]);
      if (sign === 87) {
        last += signs.indexOf(text[i + 1]) * 61 + signs.indexOf(text[i + 2]) - 1860;
        i += 2;
      } else if (sign < 61) last += sign - 30;
      for (let n = sign > 60 && sign < 87 ? sign - 59 : 1; n > 0; n -= 1) told.push(last);
    }
    return told;
  };
  const shared = document.getElementById('hours');
  const held = {};
  const once = (key, make) => (held[key] ??= make());
  const sharedNumbers = (name) => once(name, () => numbers(shared.dataset[name]));
  const tissue = (place) => once('tissue' + place, () => numbers(shared.children[place].dataset.tissue));
  const clock = () => once('clock', () => new Intl.DateTimeFormat('en-GB', { timeZone: notes.dataset.zone,
    year: 'numeric', day: 'numeric', month: 'numeric', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }));
  const clockWords = (hour) => {
    const part = {};
    for (const { type, value } of clock().formatToParts(new Date((Number(shared.dataset.start) + hour) * 3600000)))
      part[type] = value;
    const weekday = new Date(Date.UTC(part.year, part.month - 1, part.day)).getUTCDay();
    return filled(words.hour.moment, { weekday: words.weekdays[weekday], day: Number(part.day),
      month: words.months[part.month - 1], time: part.hour + ':' + part.minute });
  };

  // Charts: one slider a graft moves a line through its three charts and reads out the hour.
  const left = 34, width = 322;
  const series = (data) => {
    const [water, low, high, healing] = [data.water, data.low, data.high, data.healing].map(numbers);
    const columns = data.columns === undefined ? null : numbers(data.columns);
    return { water, low, high, healing, columns, tissue: tissue(data.tissue), first: Number(data.first) };
  };
  const dayOf = (hour) => {
    const days = sharedNumbers('days');
    let day = 0;
    while (day + 2 < days.length && days[day + 1] <= hour) day += 1;
    return day;
  };
  // The column of an hour, and how far into it the hour is.
  const columnOf = (of, hour) => {
    const days = sharedNumbers('days');
    const day = dayOf(hour);
    let rest = day - dayOf(of.first) + (hour + 0.5 - days[day]) / (days[day + 1] - days[day]);
    if (of.columns === null) return rest;
    let column = 0;
    while (column + 1 < of.columns.length && rest >= of.columns[column]) rest -= of.columns[column++];
    return column + rest / of.columns[column];
  };
  // The hour at a place of the charts, by halving: columns rise with hours.
  const hourAt = (of, column) => {
    let from = 0, to = of.water.length - 1;
    while (from < to) {
      const middle = (from + to + 1) >> 1;
      if (columnOf(of, of.first + middle) <= column) from = middle;
      else to = middle - 1;
    }
    return from;
  };
  const read = (box) => {
    const data = box.dataset;
    const charts = all(box, 'svg');
    const tables = all(box, 'table');
    const rows = tables.map((table) => all(table, 'tbody th:not([scope])').map((head) => head.parentElement));
    let of;
    const open = () => (of ??= series(data));
    const seek = document.createElement('input');
    seek.className = 'seek';
    Object.assign(seek, { type: 'range', min: 0, max: tissue(data.tissue).length - 1, value: data.now });
    seek.setAttribute('aria-label', data.label);
    const keys = document.createElement('p');
    keys.className = 'steps';
    const seen = document.createElement('p');
    seen.className = 'seen';
    seen.textContent = words.invitation;
    box.prepend(seek, keys, seen);
    const marks = charts.map((chart) => {
      const mark = chart.querySelector('path').cloneNode();
      mark.removeAttribute('d');
      mark.setAttribute('class', 'at');
      chart.append(mark);
      return mark;
    });
    // What the tables say of the day: by the head of the column, '' where it is empty or absent.
    const ofDay = (column, name) => tables.map((table, i) => {
      const cell = [...table.tHead.rows[0].cells].findIndex((head) => head.textContent === name);
      return cell < 0 ? '' : rows[i][column].cells[cell].textContent.trim();
    }).filter((told) => told !== '').join(' ');
    const go = () => {
      open();
      const hour = Number(seek.value);
      const column = columnOf(of, of.first + hour);
      const x = (left + (width * column) / rows[0].length).toFixed(1);
      marks.forEach((mark) => mark.setAttribute('d', 'M' + x + ' 14V' + mark.parentElement.dataset.foot));
      const row = Math.min(Math.floor(column), rows[0].length - 1);
      const water = of.water[hour];
      const hard = ofDay(row, words.heads.hard_day);
      const when = make('b', '', seen);
      when.textContent = clockWords(of.first + hour);
      const [before, after = ''] = filled(words.hour.seen, { unit: shared.dataset.unit, tissue: of.tissue[hour],
        air: sharedNumbers('air')[of.first + hour], limit: ofDay(row, words.heads.limit), water,
        low: water + of.low[hour], high: water + of.high[hour], healing: (of.healing[hour] / 100).toFixed(2),
        stage: ofDay(row, words.heads.stage) }).split('{moment}');
      seen.replaceChildren(before, when, after + (hard === '' ? '' :
        ' ' + filled(words.hour.hard, { why: hard.split(' ').join(', ') })));
      seek.setAttribute('aria-valuetext', seen.textContent);
    };
    const step = (hours) => {
      seek.value = Number(seek.value) + hours;
      go();
    };
    for (const { hours, label, aloud } of words.steps) {
      const button = make('button', 'big', keys);
      button.type = 'button';
      button.textContent = label;
      button.setAttribute('aria-label', aloud);
      button.addEventListener('click', () => step(hours));
    }
    seek.addEventListener('input', go);
    seek.addEventListener('focus', go);
    seek.addEventListener('keydown', (event) => {
      const days = { PageUp: 1, PageDown: -1 }[event.key];
      if (days === undefined) return;
      event.preventDefault();
      step(24 * days);
    });
    charts.forEach((chart) => {
      chart.addEventListener('pointermove', (event) => {
        const frame = chart.getBoundingClientRect();
        const x = ((event.clientX - frame.left) / frame.width) * 360;
        seek.value = hourAt(open(), ((x - left) / width) * rows[0].length);
        go();
      });
      // From there on the arrow keys go by hours.
      chart.addEventListener('pointerdown', () => seek.focus({ preventScroll: true }));
    });
  };
  all(document, '.charts[data-water]').forEach(read);
})();
