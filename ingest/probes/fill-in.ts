/** The files for a board with the values of one probe: what stands between two @ is written as the language of the file writes it. */
import { z } from 'zod';
import { nameSchema } from '../../shared/names.ts';

/** No control signs: with one a line would not be what it seems, in any of the languages. */
const lineSchema = z.string().regex(/^\P{Cc}*$/u);

const probeSettingsSchema = z.object({
  wifi: lineSchema,
  wifiPassword: lineSchema,
  broker: lineSchema,
  port: z.number().int().min(1).max(65_535),
  user: lineSchema,
  password: lineSchema,
  root: lineSchema,
  site: nameSchema,
  probe: nameSchema,
  withSoil: z.boolean(),
  withBattery: z.boolean(),
});
export type ProbeSettings = z.infer<typeof probeSettingsSchema>;

/** Pins of the first converter of an ESP32: the second does not measure while Wi-Fi is on (ESP-IDF, “ADC limitations”). */
const soilPin = 34;
const batteryPin = 35;

interface Language {
  readonly text: (value: string) => string;
  readonly none: string;
}

/** A JSON text without control signs is a text in Python, in C and in YAML. */
const quoted = (value: string) => JSON.stringify(value);

const languages = {
  py: { text: quoted, none: 'None' },
  ino: { text: quoted, none: '-1' },
  // `$` would begin a substitution of ESPHome.
  yaml: { text: (value: string) => quoted(value).replaceAll('$', '\\x24'), none: '' },
  txt: { text: unquoted, none: '' },
} as const satisfies Record<string, Language>;
export type Ending = keyof typeof languages;

/** A command of Tasmota ends at a semicolon, and nothing quotes one. */
function unquoted(value: string): string {
  if (/[;\s]/.test(value)) throw new Error('A value for Tasmota must have no spaces and no semicolons');
  return value;
}

/** @param template A file of `ingest/probes/`, by its ending. */
export function fillIn(template: string, ending: Ending, settings: ProbeSettings): string {
  const { text, none } = languages[ending];
  const { root, site, probe, port, withSoil, withBattery, ...texts } = probeSettingsSchema.parse(settings);
  const prefix = `${root}/${site}/${probe}`;
  const values: Readonly<Record<string, () => string>> = {
    wifi: () => text(texts.wifi),
    wifiPassword: () => text(texts.wifiPassword),
    broker: () => text(texts.broker),
    port: () => String(port),
    user: () => text(texts.user),
    password: () => text(texts.password),
    probe: () => text(probe),
    prefix: () => text(prefix),
    topic: () => text(`${prefix}/reading`),
    temperatureTopic: () => text(`${prefix}/temperature`),
    moistureTopic: () => text(`${prefix}/moisture`),
    hostName: () => text(hostNameOf(probe)),
    soilPin: () => (withSoil ? String(soilPin) : none),
    batteryPin: () => (withBattery ? String(batteryPin) : none),
  };
  return withoutSoil(template, withSoil).replace(/@(\w+)@/g, (whole, name: string) => values[name]?.() ?? whole);
}

/** In YAML the soil probe stands last. */
const withoutSoil = (template: string, withSoil: boolean) =>
  withSoil ? template.replace('# soil probe\n', '') : (template.split('# soil probe\n')[0] ?? '');

/** Up to 31 letters, digits and hyphens (ESPHome, “Core configuration”). */
const hostNameOf = (probe: string) => `probe-${probe.replaceAll('_', '-')}`.slice(0, 31).replace(/-$/, '');
