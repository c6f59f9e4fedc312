/** Whether the mail server lets us in: everything up to a message, and no message. */
import type { Config } from '../../shared/config.ts';
import { smtpServerOf } from '../notify/channels/email.ts';
import { type Finding, mendFor, messageOf, untrusted } from './finding.ts';

const part = 'mail';

export async function checkMail(
  { SMTP_URL: url, MAIL_FROM: from }: Pick<Config, 'SMTP_URL' | 'MAIL_FROM'>,
  patienceMs = 10_000,
): Promise<Finding> {
  if (url === undefined || from === undefined) {
    return { part, state: 'off', says: 'no mail server is set (BRANHEARTH_SMTP_URL, BRANHEARTH_MAIL_FROM)' };
  }
  const server = smtpServerOf(url);
  const shown = `${server.host}:${server.port}`;
  const { createTransport } = await import('nodemailer'); // large
  const transport = createTransport({
    ...server,
    connectionTimeout: patienceMs,
    greetingTimeout: patienceMs,
    socketTimeout: patienceMs,
    dnsTimeout: patienceMs,
  });
  try {
    await transport.verify();
    const as = server.auth === undefined ? 'without a password' : `as ${server.auth.user}`;
    return {
      part,
      state: 'ok',
      says: `${shown} lets us in ${as}; whether it takes messages from ${from} a test under My notifications shows`,
    };
  } catch (error) {
    return { part, state: 'wrong', says: `the mail server at ${shown}: ${messageOf(error)}`, mend: mendOf(error) };
  } finally {
    transport.close();
  }
}

function mendOf(error: unknown): string | undefined {
  return mendFor(error, [
    [
      /EAUTH/,
      'put user and password of the mail server into BRANHEARTH_SMTP_URL, signs such as @ as %40; many want a password made for programs alone',
    ],
    [/ECONNREFUSED/, 'put the address and the port of the mail server into BRANHEARTH_SMTP_URL (587 or 465 as a rule)'],
    [/EDNS|ENOTFOUND|EAI_AGAIN/, 'there is no machine of that name: put the right one into BRANHEARTH_SMTP_URL'],
    untrusted,
    [
      /wrong version number|SSL routines|Greeting never received|ETIMEDOUT/i,
      'smtps:// speaks TLS from the first byte (465), smtp:// begins without it (587): take the other one, or ask whether this network lets mail out',
    ],
  ]);
}
