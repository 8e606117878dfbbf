// Reads back what viz/packed.hpp writes: base64 text, zlib, then rows of numbers.
"use strict";

async function unpackFields(text, parts) {
  const letters = atob(text.trim());
  const packed = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; ++i) packed[i] = letters.charCodeAt(i);
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
  const raw = new Uint8Array(await new Response(stream).arrayBuffer());
  const fields = {};
  for (const [name, part] of Object.entries(parts)) fields[name] = readPart(raw, part);
  return fields;
}

// "f32" and "u16" come as one typed array; "d16" and "d8" as an object with a frame for every moment.
function readPart(raw, part) {
  const { kind, at, count, frames, step } = part;
  if (kind === "f32") return new Float32Array(raw.buffer, at, count);
  if (kind === "u16") return new Uint16Array(raw.buffer, at, count);
  const wide = kind === "d16";
  const all = wide ? new Int16Array(count * frames) : new Uint8Array(count * frames);
  let from = at;
  for (let f = 0; f < frames; ++f) {
    const now = f * count, before = now - count;
    for (let i = 0; i < count; ++i) {
      const difference = wide ? raw[from + i] | (raw[from + count + i] << 8) : raw[from + i];
      all[now + i] = difference + (f > 0 ? all[before + i] : 0);
    }
    from += wide ? 2 * count : count;
  }
  return { step, count, frames, frame: (f) => all.subarray(f * count, (f + 1) * count) };
}
