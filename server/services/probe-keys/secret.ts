/** A new secret, and the forms in which it is kept. It never keeps the secret itself. */
import { createHash, pbkdf2Sync, randomBytes } from 'node:crypto';

/** Crockford's base 32: no letter that is taken for another when it is typed off a screen, and none that a shell minds. */
const contents = '0123456789abcdefghjkmnpqrstvwxyz';

export function randomLetters(count: number): string {
  return Array.from(randomBytes(count), (byte) => contents[byte % contents.length]).join('');
}

export interface NewSecret {
  readonly secret: string;
  readonly secretSha256: string;
  readonly mosquittoHash: string;
}

export function newSecret(): NewSecret {
  const secret = randomLetters(32);
  return {
    secret,
    secretSha256: createHash('sha256').update(secret).digest('hex'),
    mosquittoHash: mosquittoHash(secret),
  };
}

/** What Mosquitto 2 writes itself. Few rounds are enough for a secret that nobody can guess. */
const rounds = 101;
const saltBytes = 12;

/** `$7$rounds$salt$hash`: PBKDF2 with HMAC-SHA-512 (RFC 8018), as mosquitto_passwd of Mosquitto 2 makes it. */
export function mosquittoHash(secret: string, salt: Buffer = randomBytes(saltBytes)): string {
  const hash = pbkdf2Sync(secret, salt, rounds, 64, 'sha512');
  return `$7$${rounds}$${salt.toString('base64')}$${hash.toString('base64')}`;
}
