import { expect, test } from 'vitest';
import { isSubscribedWith } from '../../web/src/data/forget-this-device.ts';

const subscription = (key: Uint8Array<ArrayBuffer> | null) =>
  ({ options: { applicationServerKey: key?.buffer ?? null } }) as unknown as PushSubscription;
// The public key of the example in RFC 8292 section 2.4 (from memory), and its bytes.
const pushKey = 'BA1Hxzyi1RUM1b5wjxsn7nGxAszw2u61m164i3MrAIxHF6YK5h4SDYic-dRuU_RCPCfA5aq9ojSwk5Y2EmClBPs';
const bytes = Uint8Array.from(Buffer.from(pushKey, 'base64url'));

test('isSubscribedWith() knows the key of the server, padded or not, and no other', () => {
  expect(isSubscribedWith(subscription(bytes), pushKey)).toBe(true);
  expect(isSubscribedWith(subscription(bytes), `${pushKey}=`)).toBe(true);
  expect(isSubscribedWith(subscription(bytes.map((byte, at) => (at === 64 ? byte ^ 1 : byte))), pushKey)).toBe(false);
});

test('isSubscribedWith() takes a browser that does not say its key at its word', () => {
  expect(isSubscribedWith(subscription(null), pushKey)).toBe(true);
});
