/**
 * Everything that can be set from outside, read and checked in one place. It never goes on with a wrong value: the
 * start stops with one line that names the variable.
 */
import type { z } from 'zod';
import { configVariables } from './config-variables.ts';
import { ConfigError } from './errors.ts';

const prefix = 'BRANHEARTH_';

type Variables = typeof configVariables;
type Checked<Name extends keyof Variables> =
  | z.output<Variables[Name]['schema']>
  | (Variables[Name]['fallback'] extends string ? never : undefined);
export type Config = { readonly [Name in keyof Variables]: Checked<Name> };

export interface ConfigAnswer {
  readonly config: Config;
  /** BRANHEARTH_* names that mean nothing here, probably slips of the pen. */
  readonly unknown: readonly string[];
}

/**
 * @param environment Names and values as the process has them.
 * @throws {ConfigError} On the first wrong value, naming variable, rule and value (a secret's value is not shown).
 */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): ConfigAnswer {
  const config: Record<string, unknown> = {};
  for (const [name, variable] of Object.entries(configVariables)) {
    const given = environment[prefix + name];
    const text = given === undefined || given === '' ? variable.fallback : given;
    if (text === undefined) continue;
    const checked = variable.schema.safeParse(text);
    if (!checked.success) throw wrongValue(name, variable.must, text);
    config[name] = checked.data;
  }
  const known = new Set(Object.keys(configVariables).map((name) => prefix + name));
  const unknown = Object.keys(environment).filter((name) => name.startsWith(prefix) && !known.has(name));
  return { config: checkTogether(config as Config), unknown };
}

function wrongValue(name: string, must: string, was: string): ConfigError {
  // An address may hold a password.
  const withoutUser = was.replace(/^([a-z+]+:\/\/)[^/@]*@/i, '$1…@');
  const secret = /TOKEN|PASSWORD|JOURNAL_URL|SMTP_URL|HEARTBEAT/;
  const shown = secret.test(name) ? `${was.length} characters` : JSON.stringify(withoutUser);
  return new ConfigError(`${prefix}${name} must be ${must}; it was ${shown}`);
}

export function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host);
}

function checkTogether(config: Config): Config {
  const { HOST, TLS_CERT, TLS_KEY, PLAIN_HTTP } = config;
  if ((TLS_CERT === undefined) !== (TLS_KEY === undefined)) {
    const [set, missing] = TLS_CERT === undefined ? ['KEY', 'CERT'] : ['CERT', 'KEY'];
    throw new ConfigError(`${prefix}TLS_${missing} must be set too, as ${prefix}TLS_${set} is`);
  }
  if (!isLoopback(HOST) && TLS_CERT === undefined && PLAIN_HTTP === undefined) {
    throw new ConfigError(
      `${prefix}HOST must be a loopback address such as 127.0.0.1 while there is no TLS; set ${prefix}TLS_CERT and _TLS_KEY, or say ${prefix}PLAIN_HTTP=behind-a-proxy or =on-a-trusted-network if you mean it; it was ${JSON.stringify(HOST)}`,
    );
  }
  const { MQTT_TLS_CERT: cert, MQTT_TLS_KEY: key } = config;
  if ((cert === undefined) !== (key === undefined)) {
    const missing = cert === undefined ? 'MQTT_TLS_CERT' : 'MQTT_TLS_KEY';
    throw new ConfigError(
      `${prefix}${missing} must be set too, as TLS needs a certificate and its private key; it was empty`,
    );
  }
  if (config.SMTP_URL !== undefined && config.MAIL_FROM === undefined) {
    throw new ConfigError(
      `${prefix}MAIL_FROM must be the sender of e-mails while BRANHEARTH_SMTP_URL is set; it was not set`,
    );
  }
  return config;
}
