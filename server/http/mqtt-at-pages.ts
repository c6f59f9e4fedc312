/**
 * Devices that were given the port of the pages instead of the broker's: their first packet is no request, and the
 * server ends the connection. Whoever set the device up would never hear why.
 */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';

export function noticeMqttAtPages(server: Server, notice: (address: string) => void): void {
  server.on('clientError', (error: Error & { readonly rawPacket?: unknown }, socket: Socket) => {
    if (isConnectPacket(error.rawPacket)) notice(socket.remoteAddress ?? '');
  });
}

/** A CONNECT of MQTT 3.1, 3.1.1 or 5: its type, one to four bytes of length, and the name of the protocol (section 3.1.2.1). */
function isConnectPacket(bytes: unknown): boolean {
  if (!Buffer.isBuffer(bytes) || bytes[0] !== 0x10) return false;
  const start = bytes.subarray(0, 16).toString('latin1');
  return start.includes('\0\x04MQTT') || start.includes('\0\x06MQIsdp');
}
