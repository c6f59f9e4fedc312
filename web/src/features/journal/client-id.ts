/**
 * An id of our own for an entry or a photo, made on this device. It never asks for crypto.randomUUID: browsers give it
 * to https pages only, and a farm's server often speaks plain http.
 */
export function newClientId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
