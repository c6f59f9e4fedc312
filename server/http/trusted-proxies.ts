import { BlockList, isIP } from 'node:net';

/** @param listed Addresses and networks, e.g. "10.0.0.0/8". @returns Whether an address is one of them, or in one. */
export function trustedProxies(listed: readonly string[]): (address: string) => boolean {
  // Asked of each connection, and looking an address up costs more than the rest of taking a connection in.
  if (listed.length === 0) return () => false;
  const list = new BlockList();
  for (const one of listed) {
    const [address = '', bits] = one.split('/', 2);
    const family = isIP(address) === 6 ? 'ipv6' : 'ipv4';
    if (bits === undefined) list.addAddress(address, family);
    else list.addSubnet(address, Number(bits), family);
  }
  return (address) => {
    const plain = address.replace(/^::ffff:/, '');
    const family = isIP(plain);
    return family !== 0 && list.check(plain, family === 6 ? 'ipv6' : 'ipv4');
  };
}
