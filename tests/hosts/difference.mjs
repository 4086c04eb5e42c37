// The first difference between two JSON values, as a sentence, or null. Structure, order and
// strings must be equal; numbers within 1e-9, relative to the larger of 1 and their size.
const TOLERANCE = 1e-9;

const show = (value) => JSON.stringify(value)?.slice(0, 120);

function kind(value) {
  if (value === null) return 'null';
  return Array.isArray(value) ? 'array' : typeof value;
}

function firstOf(keys, a, b, path) {
  for (const key of keys) {
    const found = difference(a[key], b[key], `${path}/${key}`);
    if (found) return found;
  }
  return null;
}

export function difference(a, b, path = '') {
  const differ = `${path || '/'}: ${show(a)} is not ${show(b)}`;
  if (kind(a) !== kind(b)) return differ;
  if (kind(a) === 'number') {
    return Math.abs(a - b) <= TOLERANCE * Math.max(1, Math.abs(a)) ? null : differ;
  }
  if (kind(a) === 'array') {
    if (a.length !== b.length) return `${path || '/'}: ${a.length} items, not ${b.length}`;
    return firstOf(a.keys(), a, b, path);
  }
  if (kind(a) === 'object') {
    const names = Object.keys(a);
    const order = difference(names.join(), Object.keys(b).join(), `${path} (names)`);
    return order ?? firstOf(names, a, b, path);
  }
  return a === b ? null : differ;
}

// How many numbers and strings a value holds: a comparison of nothing must not pass.
export function leaves(value) {
  if (value === null || typeof value !== 'object') return 1;
  return Object.values(value).reduce((sum, item) => sum + leaves(item), 0);
}
