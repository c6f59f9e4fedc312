/** Data format 5 of a temperature and nothing else (docs.ruuvi.com, data format 5). */
export function ruuviData(tempC: number): string {
  const data = Buffer.from('058000FFFFFFFF800080008000FFFFFFFFFFFFFFFFFFFFFF', 'hex');
  data.writeInt16BE(Math.round(tempC / 0.005), 1);
  return `0201061BFF9904${data.toString('hex').toUpperCase()}`;
}
