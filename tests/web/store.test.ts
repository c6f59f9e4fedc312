import { expect, test } from 'vitest';
import { createStore, partOf } from '../../web/src/data/store.ts';

function followed() {
  const store = createStore({ a: 1, b: 1 });
  const heard: unknown[] = [];
  store.follow(() => heard.push(store.get()));
  return { store, heard };
}

test('a store is heard once of all that is set together, with the last of it', () => {
  const { store, heard } = followed();
  store.together(() => {
    store.set({ a: 2, b: 1 });
    expect(store.get()).toEqual({ a: 2, b: 1 });
    store.set({ a: 2, b: 2 });
    expect(heard).toEqual([]);
  });
  expect(heard).toEqual([{ a: 2, b: 2 }]);
});

test('a store is heard of what was set together before something failed', () => {
  const { store, heard } = followed();
  const fail = () =>
    store.together(() => {
      store.set({ a: 3, b: 1 });
      throw new Error('half way');
    });
  expect(fail).toThrow('half way');
  store.set({ a: 4, b: 1 });
  expect(heard).toEqual([
    { a: 3, b: 1 },
    { a: 4, b: 1 },
  ]);
});

test('a part of a store is heard when it changes, and not when anything else does', () => {
  const { store } = followed();
  const part = partOf(store, ({ a }) => a);
  const heard: number[] = [];
  part.follow(() => heard.push(part.get()));
  store.set({ a: 1, b: 2 });
  store.set({ a: 5, b: 2 });
  expect(heard).toEqual([5]);
});
