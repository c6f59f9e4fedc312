/** What keeps a port from being opened, as one line that a person can act on. */
import { createServer } from 'node:net';
import { ConfigError } from './errors.ts';

export interface WantedPort {
  /** 0 takes any free one. */
  readonly port: number;
  readonly host: string;
  /** What shall listen there, as in "for the pages". */
  readonly use: string;
  /** Names of the settings. */
  readonly names: { readonly port: string; readonly host: string };
  /** What else can be done when it is taken; without one, stopping what listens there. */
  readonly otherwise?: string;
}

export function listenProblem(cause: NodeJS.ErrnoException, wanted: WantedPort): ConfigError {
  return new ConfigError(problemText(cause, wanted), { cause });
}

function problemText({ code, message }: NodeJS.ErrnoException, { port, host, use, names, otherwise }: WantedPort) {
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is taken, and is wanted for ${use}: set ${names.port} to another, or ${otherwise ?? 'stop what listens there'}`;
    case 'EACCES':
      return `Port ${port} for ${use} may not be opened by this user, as systems keep ports below 1024 for themselves: set ${names.port} to a higher one, or give the program the right to it (under systemd AmbientCapabilities=CAP_NET_BIND_SERVICE)`;
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `${names.host} must be an address of this machine, for ${use}; it was ${JSON.stringify(host)}`;
    default:
      return `${names.port} and ${names.host} must be a port and an address that can be listened on, for ${use}: ${port} at ${host} gave ${code ?? message}`;
  }
}

/** Looks before anything else is opened, so that nothing has to be closed again. @throws {ConfigError} */
export async function mustBeFree(wanted: WantedPort): Promise<void> {
  if (wanted.port === 0) return;
  await new Promise<void>((resolve, reject) => {
    const server = createServer();
    server.once('error', (cause) => reject(listenProblem(cause, wanted)));
    server.listen({ host: wanted.host, port: wanted.port }, () => server.close(() => resolve()));
  });
}
