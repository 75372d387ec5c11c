import { crc32, deflateSync } from 'node:zlib';
import type { ReportExtras } from '../../electron/host/papers/report.ts';
import { runDigestOf } from '../../electron/host/papers/verdict.ts';
import { decodeRunFile, type ReadRunFile } from '../../sim-core/index.ts';
import { verdictOn } from './signed-run.ts';

/** A PNG with a slanted edge between two greys. */
export function samplePng(width: number, height: number): Uint8Array {
  const rows = Buffer.alloc(height * (1 + width));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows[y * (1 + width) + 1 + x] = x + y / 3 < width * 0.6 ? 190 : 90;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const chunk = (name: string, data: Uint8Array) => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
    const frame = Buffer.alloc(8);
    frame.writeUInt32BE(data.length, 0);
    frame.writeUInt32BE(crc32(body), 4);
    return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
  };
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))]);
}

export function readRun(text: string): ReadRunFile {
  const result = decodeRunFile(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.run;
}

/** What a yard adds to a run: an apprentice, an assessor's verdict, two pictures. */
export function reportExtras(runText: string): ReportExtras {
  const { overruled, decision, reasons, assessor, at } = verdictOn(runText);
  return {
    yard: 'Tidewater Row slipway yard',
    person: 'Apprentice 01',
    warning: null,
    beganAt: '2030-01-31T09:45:12.000Z',
    runDigest: runDigestOf(runText),
    verdict: { overruled, decision, reasons, assessor, at, scoreAfter: 71.3, keyId: '4fd1'.repeat(16) },
    pictures: [
      { caption: 'The cut from above', png: samplePng(320, 180) },
      { caption: 'The lower edge', png: samplePng(200, 180) },
    ],
    units: 'metric',
    madeAt: '2030-02-01T10:20:00.000Z',
    appVersion: '0.1.0',
  };
}
