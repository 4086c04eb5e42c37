// The comparison must be able to fail: every kind of difference is planted and must be found.
import assert from 'node:assert/strict';
import test from 'node:test';
import { difference, leaves } from './difference.mjs';

const answer = () => ({ schema: 1, dates: ['2027-03-04'], litres: [13.5, 1e6], none: null });

function planted(change) {
  const other = answer();
  change(other);
  return difference(answer(), other);
}

test('equal answers have no difference', () => {
  assert.equal(difference(answer(), answer()), null);
});

test('numbers may differ by 1e-9 relative and no more', () => {
  assert.equal(planted((x) => (x.litres[1] += 9e-4)), null);
  assert.match(planted((x) => (x.litres[1] += 1.1e-3)), /^\/litres\/1/);
  assert.match(planted((x) => (x.litres[0] += 1e-7)), /^\/litres\/0: 13.5 is not 13.5/);
});

test('a string that differs in one byte is found', () => {
  assert.equal(planted((x) => (x.dates[0] = '2027-03-05')), '/dates/0: "2027-03-04" is not "2027-03-05"');
});

test('a changed kind, a missing item and a missing field are found', () => {
  assert.match(planted((x) => (x.schema = '1')), /^\/schema/);
  assert.match(planted((x) => (x.none = 0)), /^\/none/);
  assert.match(planted((x) => x.dates.pop()), /^\/dates: 1 items, not 0/);
  assert.match(planted((x) => delete x.none), /names/);
  assert.match(planted((x) => (x.more = 1)), /names/);
});

test('the order of fields and items counts', () => {
  assert.match(difference({ a: 1, b: 2 }, { b: 2, a: 1 }), /names/);
  assert.match(difference([1, 2], [2, 1]), /^\/0/);
});

test('leaves counts what was compared', () => {
  assert.equal(leaves(answer()), 5);
  assert.equal(leaves({ a: [] }), 0);
});
