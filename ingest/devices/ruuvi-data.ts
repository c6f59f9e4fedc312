/**
 * Data of Ruuvi sensors as they stand in a Bluetooth advertisement: formats 3 (RAWv1), 5 (RAWv2) and 6, as described at
 * docs.ruuvi.com/communication/bluetooth-advertisements, whose test vectors are our tests.
 */
export interface RuuviData {
  readonly temperatureC: number | undefined;
  readonly humidityPct: number | undefined;
  readonly batteryV: number | undefined;
  readonly co2Ppm: number | undefined;
}

const manufacturerData = 0xff; // Bluetooth assigned numbers, section 2.3
const ruuviInnovations = 0x0499; // section 7.1
const longestHex = 512;

/** @param hex The whole advertisement. @returns undefined when it holds no data that we know. */
export function readAdvertisement(hex: string): RuuviData | undefined {
  if (hex.length > longestHex || hex.length % 2 !== 0 || !/^[0-9a-f]*$/i.test(hex)) return undefined;
  const bytes = Buffer.from(hex, 'hex');
  let at = 0;
  while (at + 1 < bytes.length) {
    const length = bytes[at] ?? 0; // of type and data (Bluetooth core specification, volume 3, part C, section 11)
    const structure = bytes.subarray(at + 1, at + 1 + length);
    if (length > 3 && structure[0] === manufacturerData && structure.readUInt16LE(1) === ruuviInnovations)
      return readData(structure.subarray(3));
    at += length + 1;
  }
  return undefined;
}

function readData(data: Buffer): RuuviData | undefined {
  if (data[0] === 3 && data.length >= 14) return readFormat3(data);
  if (data[0] === 5 && data.length >= 24) return readFormat5(data);
  if (data[0] === 6 && data.length >= 20) return readFormat6(data);
  return undefined;
}

function readFormat3(data: Buffer): RuuviData {
  const whole = data.readUInt8(2);
  const size = (whole & 0x7f) + data.readUInt8(3) / 100; // sign and magnitude
  return {
    temperatureC: rounded((whole & 0x80) === 0 ? size : -size),
    humidityPct: data.readUInt8(1) / 2,
    batteryV: data.readUInt16BE(12) / 1000,
    co2Ppm: undefined,
  };
}

function readFormat5(data: Buffer): RuuviData {
  const power = data.readUInt16BE(13) >> 5;
  return { ...climate(data), batteryV: power === 2047 ? undefined : rounded(1.6 + power / 1000), co2Ppm: undefined };
}

function readFormat6(data: Buffer): RuuviData {
  const co2 = data.readUInt16BE(9);
  return { ...climate(data), batteryV: undefined, co2Ppm: co2 === 0xffff ? undefined : co2 };
}

/** Formats 5 and 6 begin alike. */
function climate(data: Buffer): Pick<RuuviData, 'temperatureC' | 'humidityPct'> {
  const temperature = data.readInt16BE(1);
  const humidity = data.readUInt16BE(3);
  return {
    temperatureC: temperature === -32_768 ? undefined : rounded(temperature * 0.005),
    humidityPct: humidity === 0xffff ? undefined : rounded(humidity * 0.0025),
  };
}

const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
