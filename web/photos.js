// Photographs of fittings: made small, kept beside the cards, and drawn for the program. A file from anywhere is looked at
// before anything of it is decoded; what is kept was drawn and encoded here, so that nothing of the file comes along.
'use strict';

const photos = (() => {
  const MOST_FILE = 40e6, MOST_PIXELS = 64e6, PATIENCE_MS = 20000;
  const LONG_SIDE = 1280, MOST_BYTES = 200e3;  // kMostPhotoSide and kMostPhotoText of core
  // Longest side and quality, until one is small enough.
  const TRIES = [[LONG_SIDE, 0.8], [LONG_SIDE, 0.65], [LONG_SIDE, 0.5], [960, 0.5], [640, 0.4]];
  const field = document.getElementById('photo');
  const unkept = new Map();  // where the browser keeps nothing, by their keys
  let asked = null, putting = Promise.resolve();

  // Its message is a key of the word table.
  class Refused extends Error {}

  // Width and height as the head of a JPEG, PNG, GIF, WebP, HEIC or AVIF file says them. Refused: any other file, and one
  // that was cut off, which a browser would show as far as it goes.
  function size_of(bytes) {
    const at = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    const is = (place, sign) => [...sign].every((c, i) => bytes[place + i] === c.charCodeAt(0));
    const three = (place) => 1 + at.getUint16(place, true) + (at.getUint8(place + 2) << 16);
    // Whether a whole file's last sign stands behind a place; other things may follow it.
    const ends = (place, sign) => {
      for (let i = bytes.length - sign.length; i > place; i -= 1) {
        if (bytes[i] === sign.charCodeAt(0) && is(i, sign)) return true;
      }
      return false;
    };
    let sides = null, known = true;
    try {
      if (is(0, '\x89PNG\r\n')) sides = ends(16, 'IEND') ? [at.getUint32(16), at.getUint32(20)] : null;
      else if (is(0, 'GIF8')) sides = [at.getUint16(6, true), at.getUint16(8, true)];
      else if (is(0, 'RIFF') && is(8, 'WEBPVP8') && at.getUint32(4, true) + 8 <= bytes.length) {
        if (is(15, 'X')) sides = [three(24), three(27)];
        if (is(15, 'L')) sides = [1 + (at.getUint16(21, true) & 0x3fff), 1 + (at.getUint32(21, true) >> 14 & 0x3fff)];
        if (is(15, ' ')) sides = [at.getUint16(26, true) & 0x3fff, at.getUint16(28, true) & 0x3fff];
      } else if (is(4, 'ftyp')) {
        known = false;  // it may be a film
        for (let i = 8; i < Math.min(bytes.length - 16, 1e6); i += 1) {
          if (at.getUint32(i) !== 0x69737065) continue;  // "ispe": the sides of one of its parts, of which the largest counts
          const part = [at.getUint32(i + 8), at.getUint32(i + 12)];
          if (!sides || part[0] * part[1] > sides[0] * sides[1]) sides = part;
        }
      } else if (is(0, '\xff\xd8')) {
        for (let i = 2; !sides && at.getUint8(i) === 0xff; i += 2 + at.getUint16(i + 2)) {
          const kind = at.getUint8(i + 1);
          if (kind < 0xc0 || kind > 0xcf || kind === 0xc4 || kind === 0xc8 || kind === 0xcc) continue;
          if (!ends(i, '\xff\xd9')) break;
          sides = [at.getUint16(i + 7), at.getUint16(i + 5)];
        }
      } else known = false;
    } catch { /* it ends in its head */ }
    if (!sides) throw new Refused(known ? 'ui.photo-unreadable' : 'ui.photo-no-picture');
    return sides;
  }

  const sound = ([width, height]) => width > 0 && height > 0 && width * height <= MOST_PIXELS;
  // An image of the file, decoded. Its bytes have no type, so that none is taken for a drawing with a script.
  async function decoded(bytes) {
    if (!sound(size_of(bytes))) throw new Refused('ui.photo-large');
    const image = new Image();
    image.src = URL.createObjectURL(new Blob([bytes]));
    try {
      await image.decode();
    } catch {
      throw new Refused('ui.photo-unreadable');
    } finally {
      URL.revokeObjectURL(image.src);
    }
    if (!sound([image.naturalWidth, image.naturalHeight])) throw new Refused('ui.photo-large');
    return image;
  }
  // As it is to be looked at: upright, its first picture if it moves, on white.
  function drawn(image, side) {
    const scale = Math.min(1, side / Math.max(image.naturalWidth, image.naturalHeight));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(scale * image.naturalWidth));
    canvas.height = Math.max(1, Math.round(scale * image.naturalHeight));
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas;
  }
  async function small(file) {
    if (file.size > MOST_FILE) throw new Refused('ui.photo-large');
    const image = await decoded(new Uint8Array(await file.arrayBuffer()));
    for (const [side, quality] of TRIES) {
      const canvas = drawn(image, side);
      const blob = await new Promise((done) => { canvas.toBlob(done, 'image/jpeg', quality); });
      if (blob && blob.size <= MOST_BYTES) return { bytes: new Uint8Array(await blob.arrayBuffer()), width: canvas.width, height: canvas.height };
    }
    throw new Refused('ui.photo-unreadable');
  }
  function in_time(promise) {
    let timer;
    const late = new Promise((_, reject) => { timer = setTimeout(() => reject(new Refused('ui.photo-unreadable')), PATIENCE_MS); });
    return Promise.race([promise, late]).finally(() => clearTimeout(timer));
  }

  async function put(ticket, id, bytes) {
    if (keeper.keeps()) await store.keep_photo(ticket, id, bytes);
    else unkept.set(ticket + id, bytes);
  }
  async function get(ticket, id) {
    try {
      return unkept.get(ticket + id) || (keeper.keeps() ? await store.photo(ticket, id) : undefined);
    } catch {
      return undefined;
    }
  }
  function tell(error) {
    call('coatwright_tell', error instanceof Refused ? error.message
      : error instanceof store.PenLost ? 'ui.follows-refused' : 'ui.photo-not-kept');
  }

  async function take(file, { ticket, id }) {
    call('coatwright_tell', 'ui.photo-comes');
    try {
      const made = await in_time(small(file).catch((error) => { throw error instanceof Refused ? error : new Refused('ui.photo-unreadable'); }));
      await put(ticket, id, made.bytes);
      call('coatwright_photo_taken', id, made.width, made.height);
    } catch (error) {
      tell(error);
    }
  }
  field.addEventListener('change', () => {
    const [file] = field.files;
    field.value = '';
    if (file && asked) take(file, asked);
  });

  return {
    ask(ticket, id, camera) {
      asked = { ticket, id };
      if (camera) field.setAttribute('capture', 'environment');
      else field.removeAttribute('capture');
      field.click();
    },
    async show(ticket, id) {
      let pixels = { data: new Uint8Array(), width: 0, height: 0 };
      try {
        const canvas = drawn(await in_time(decoded(await get(ticket, id))), LONG_SIDE);
        pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
      } catch { /* not there, or damaged */ }
      call_with_bytes('coatwright_photo_shown', pixels.data, { before: [id], after: [pixels.width, pixels.height] });
    },
    // For a backup, in base64.
    async read(ticket, id) {
      const bytes = await get(ticket, id), text = bytes ? btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join('')) : '';
      call_with_bytes('coatwright_photo_read', bytes_of(text), { before: [id] });
    },
    // Of a backup, one after the other: a store is given time for each.
    keep(ticket, id, text) {
      putting = putting.then(() => put(ticket, id, Uint8Array.from(atob(text), (c) => c.charCodeAt(0)))).catch(tell);
    },
  };
})();
