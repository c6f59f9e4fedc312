/** A real SMTP server on loopback whose mailbox can be read, and which can be unkind. */
import { createServer, type Server } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer } from 'smtp-server';

interface GotMail {
  readonly to: readonly string[];
  readonly parsed: ParsedMail;
  readonly raw: string;
  readonly atMs: number;
}

/** `refuse`: 550 for the address. `greylist`: 451. `hang`: silence after the letter. `drop`: ends the line in the letter's middle. */
type MailMood = 'kind' | 'refuse' | 'greylist' | 'hang' | 'drop';

export interface MailServer {
  readonly url: string;
  readonly port: number;
  readonly mails: GotMail[];
  mood: MailMood;
  /** Letters begun, in whatever mood. */
  attempts: number;
  /** Called when a letter is taken, before it is said so. */
  onTaken: (() => void) | undefined;
  close(): Promise<void>;
}

export async function startMailServer(port = 0): Promise<MailServer> {
  const hanging = new Set<() => void>();
  const smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    logger: false,
    onRcptTo(_address, _session, done) {
      box.attempts += 1;
      if (box.mood === 'refuse') return done(Object.assign(new Error('no such mailbox here'), { responseCode: 550 }));
      if (box.mood === 'greylist')
        return done(Object.assign(new Error('greylisted, come back later'), { responseCode: 451 }));
      done();
    },
    onData(stream, session, done) {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => {
        chunks.push(chunk);
        if (box.mood === 'drop') smtp.connections.forEach(endConnection);
      });
      stream.on('end', () => {
        if (box.mood === 'hang') return void hanging.add(done);
        const raw = Buffer.concat(chunks);
        const to = session.envelope.rcptTo.map(({ address }) => address);
        void simpleParser(raw).then((parsed) => {
          box.mails.push({ to, parsed, raw: raw.toString('utf8'), atMs: Date.now() });
          box.onTaken?.();
          done();
        });
      });
    },
  });
  smtp.on('error', () => undefined); // clients that are killed break their lines
  await new Promise<void>((resolve) => smtp.listen(port, '127.0.0.1', resolve));
  const bound = (smtp.server as Server).address();
  const boundPort = typeof bound === 'object' && bound ? bound.port : 0;
  const box: MailServer = {
    url: `smtp://127.0.0.1:${boundPort}`,
    port: boundPort,
    mails: [],
    mood: 'kind',
    attempts: 0,
    onTaken: undefined,
    async close() {
      for (const done of hanging) done();
      await new Promise<void>((resolve) => smtp.close(() => resolve()));
    },
  };
  return box;
}

/** Takes connections and never says a word. */
export async function startSilentServer(): Promise<{ url: string; close(): Promise<void> }> {
  const sockets = new Set<import('node:net').Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const bound = server.address();
  return {
    url: `smtp://127.0.0.1:${typeof bound === 'object' && bound ? bound.port : 0}`,
    async close() {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

function endConnection(connection: unknown): void {
  (connection as { _socket?: { destroy(): void } })._socket?.destroy();
}
