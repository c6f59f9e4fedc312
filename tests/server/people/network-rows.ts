/** Addresses that count as one for guessing, either side of the /64 of IPv6. */
export const networkKeyRows: readonly (readonly [string, string, boolean])[] = [
  ['192.0.2.7', '192.0.2.8', false],
  ['192.0.2.7', '::ffff:192.0.2.7', true],
  ['2001:db8:1:2::1', '2001:db8:1:2:ffff::9', true],
  ['2001:db8:1:2::1', '2001:db8:1:3::1', false],
];
