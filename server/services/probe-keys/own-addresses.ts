/** Addresses of this machine in its networks. */
import { networkInterfaces } from 'node:os';

export function ownAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((some) => some ?? []);
  return all.filter(({ internal, family }) => !internal && family === 'IPv4').map(({ address }) => address);
}
