/** A server that answers its own machine only, before anything came. */
import type { FirstMessageAnswer } from '../../shared/contracts/first-message.ts';
import type { Reach } from '../../shared/contracts/reach.ts';

const broker = { host: '127.0.0.1', port: 1883, tls: false, onlyHere: true };

export const nothingCameYet: FirstMessageAnswer = {
  broker,
  root: 'piles',
  authPolicy: 'embedded',
  first: null,
  refused: null,
  unused: [],
  turnedAway: [],
};

export const reachedFromHere: Reach = {
  // RFC 5737 keeps this network for examples.
  addresses: ['192.0.2.7'],
  broker,
  authPolicy: 'embedded',
  pages: {
    port: 4180,
    tls: false,
    onlyHere: true,
    url: 'http://192.0.2.7:4180',
    code: { size: 9, path: 'M4 4h1v1h-1z' },
  },
  hasOwner: false,
};
