// The printed report: one page, whatever stands in it; the words and figures of the run are on it; bad pictures are refused.
import { decodePDFRawStream, PDFArray, PDFDict, PDFDocument, PDFName, PDFRawStream, PDFStream } from '@cantoo/pdf-lib';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { PAGE_HEIGHT_PT, PAGE_WIDTH_PT } from '../../electron/host/papers/pdf-page.ts';
import { type Report, reportOf } from '../../electron/host/papers/report.ts';
import { reportPdf } from '../../electron/host/papers/report-pdf.ts';
import { CAUTION_IDS } from '../../sim-core/index.ts';
import { readRun, reportExtras, samplePng } from './sample-report.ts';
import { realRunText } from './signed-run.ts';

let runText: string;
let report: Report;

beforeAll(() => {
  runText = realRunText(3);
  report = reportOf(readRun(runText), reportExtras(runText));
});

interface PrintedText {
  text: string;
  x: number;
  y: number;
}

/** Reads a PDF back: its document and every text on its only page with the place of its left end. */
async function printed(pdf: Uint8Array): Promise<{ document: PDFDocument; texts: PrintedText[]; all: string }> {
  const document = await PDFDocument.load(pdf, { updateMetadata: false });
  expect(document.getPageCount()).toBe(1);
  const { node } = document.getPage(0);
  const contents = node.Contents();
  const streams = contents instanceof PDFArray ? contents.asArray().map((ref) => document.context.lookup(ref)) : [contents];
  const code = streams
    .map((stream) => (stream instanceof PDFRawStream ? Buffer.from(decodePDFRawStream(stream).decode()).toString('latin1') : ''))
    .join('\n');
  const texts = [...code.matchAll(/1 0 0 1 (\S+) (\S+) Tm\s+<([0-9A-Fa-f]*)> Tj/g)].map(([, x, y, hex]) => {
    return { text: new TextDecoder('windows-1252').decode(Buffer.from(hex, 'hex')), x: Number(x), y: Number(y) };
  });
  return { document, texts, all: texts.map(({ text }) => text).join('\n') };
}

const HOSTILE_PIECES = [
  ...[
    '(',
    ')',
    '\\',
    '<<',
    '>>',
    '/JS (app.alert(1))',
    ') Tj ET /URI (http://elsewhere.invalid/)',
    '%',
    '\u0000',
    '\r\n',
    'endstream',
  ],
  ...[
    '<img src=x onerror=a()>',
    '\u202E',
    '\u2066',
    '\u200B',
    '\uFEFF',
    '\u0301',
    '\u{1F525}',
    '\u5207',
    '\u0153',
    '\u00DF',
    'W'.repeat(300),
  ],
];

/** What a reader of PDF acts on: scripts, links, attachments, things done when a page is opened. */
const DEEDS = [
  ...['JavaScript', 'JS', 'URI', 'Launch', 'OpenAction', 'AA', 'A', 'Annots', 'EmbeddedFiles', 'EmbeddedFile', 'AcroForm', 'XFA'],
  ...['GoToR', 'GoToE', 'SubmitForm', 'ImportData', 'RichMedia', 'Movie', 'Sound', 'Rendition'],
];

function deedsIn(document: PDFDocument): string[] {
  const found: string[] = [];
  const walk = (part: unknown): void => {
    if (part instanceof PDFArray) for (const one of part.asArray()) walk(one);
    if (part instanceof PDFName && DEEDS.includes(part.decodeText())) found.push(part.decodeText());
    if (part instanceof PDFStream) walk(part.dict);
    if (!(part instanceof PDFDict)) return;
    for (const [key, value] of part.entries()) {
      // An empty list of what lies on the page is made for every page.
      if (value instanceof PDFArray && value.size() === 0) continue;
      walk(key);
      walk(value);
    }
  };
  for (const [, part] of document.context.enumerateIndirectObjects()) walk(part);
  return found;
}

describe('the report of a run', () => {
  test('is one page A4 with the run, the marks, the verdict with both marks, and what governs on real plate', async () => {
    const { document, all } = await printed(await reportPdf(report));
    expect(document.getPage(0).getSize()).toEqual({ width: PAGE_WIDTH_PT, height: PAGE_HEIGHT_PT });
    expect(document.getTitle()).toBe('Report of a training run: Mudguard patch, straight, 3 mm');
    expect(document.getCreationDate()).toEqual(new Date('2030-02-01T10:20:00.000Z'));
    const [first] = report.measures;
    for (const words of [
      'Mudguard patch, straight, 3 mm',
      'Apprentice 01',
      'Not yet competent',
      'Assessor 01, 2030-02-01 10:15 UTC',
      'Signed with key 4fd14fd14fd14fd1',
      'Score with the assessor\u2019s marks: 71.3',
      `Cut through ${Number(first.mark.toPrecision(3))} overruled to 55: The tab`,
      'the cut stopped short of its end',
      'Travel speed, mm/s',
      'The lower edge',
      '29 CFR 1910.133(a)(5)',
      'licensed electrician',
      'Figures are estimates for training.',
    ]) {
      expect(all).toContain(words);
    }
    expect(all).not.toContain('?');
  });
  test('is the same bytes for the same report', async () => {
    expect(Buffer.compare(await reportPdf(report), await reportPdf(report))).toBe(0);
  });
  test('takes its figures from the run: marks, bands, traces while the arc burns on the metal', () => {
    const run = readRun(runText);
    expect(report.measures.map(({ mark }) => mark)).toEqual(run.score?.measures.map(({ mark }) => mark));
    expect(report.measures[0]).toMatchObject({ overruledTo: 55 });
    expect(report.traces.map(({ name }) => name)).toEqual(['Travel speed', 'Spark lean', 'Stand-off', 'Work angle']);
    expect(report.traces[1]).toMatchObject(run.drill.tolerances.sparkAngleDeg);
    expect(report.traces[3]).toMatchObject({ low: -run.drill.tolerances.leanDeg, high: run.drill.tolerances.leanDeg });
    const [speed] = report.traces;
    expect(speed.fromS).toBeGreaterThan(0);
    expect(speed.values.length / speed.hz).toBeLessThan(run.tickCount / 240);
    expect(Number.isFinite(speed.values[0]) && Number.isFinite(speed.values.at(-1))).toBe(true);
  });
  test('of a groove shows the lean in the travel with the band that the drill asks for', () => {
    const run = readRun(runText);
    const pushed = {
      ...run,
      drill: { ...run.drill, intended: { ...run.drill.intended, travelAngleDeg: { low: -50, high: -30 } } },
    };
    const traces = reportOf(pushed, reportExtras(runText)).traces;
    expect(traces.map(({ name }) => name)).toEqual(['Travel speed', 'Spark lean', 'Stand-off', 'Travel angle']);
    expect(traces[3]).toMatchObject({ low: -50, high: -30 });
    const bevel = { ...run, drill: { ...run.drill, intended: { ...run.drill.intended, bevelDeg: 30 } } };
    expect(reportOf(bevel, reportExtras(runText)).traces[3]).toMatchObject({ name: 'Work angle', low: 22, high: 38 });
  });
  test('prints lengths and speeds in inches where the reader has them so, and times and angles as ever', async () => {
    const inch = reportOf(readRun(runText), { ...reportExtras(runText), units: 'inch' });
    const [speed, spark, standOff] = report.traces;
    expect(inch.thickness).toBe('0.118 in');
    expect(inch.traces.map(({ unit }) => unit)).toEqual(['in/min', '\u00b0', 'in', '\u00b0']);
    expect(inch.traces[0].high).toBeCloseTo(((speed.high ?? 0) * 60) / 25.4, 6);
    expect(inch.traces[0].values[5]).toBeCloseTo((speed.values[5] * 60) / 25.4, 3);
    expect(inch.traces[2].low).toBeCloseTo((standOff.low ?? 0) / 25.4, 6);
    expect(inch.traces[1]).toEqual(spark);
    const { all } = await printed(await reportPdf(inch));
    expect(all).toContain('Mild steel, 0.118 in');
    expect(all).toContain('Travel speed, in/min');
  });
  test('keeps to its page with every measure, every caution, long names and reasons, and letters that it has not', async () => {
    const long: Report = {
      ...report,
      yard: 'Yard '.repeat(60),
      drillTitle: 'W'.repeat(120),
      measures: Array.from({ length: 18 }, () => report.measures[0]),
      cautions: [...CAUTION_IDS],
      verdict: report.verdict && {
        ...report.verdict,
        reasons: 'Za\u017c\u00f3\u0142\u0107 \u5207 '.repeat(300),
        overruled: Array.from({ length: 18 }, () => ({ name: 'Cut through', from: 80, to: 50, reason: 'x'.repeat(2000) })),
      },
    };
    const { texts, all } = await printed(await reportPdf(long));
    expect(texts.filter(({ x, y }) => x < 39 || x > PAGE_WIDTH_PT - 39 || y < 15 || y > PAGE_HEIGHT_PT - 30)).toEqual([]);
    expect(all).toContain('Zaz\u00f3?c ?');
    expect(all).toContain('stand as a question mark');
    expect(all).toContain('(whole in the records)');
    // No two texts on one another: at the same height, the next begins right of the one before.
    const places = texts.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`);
    expect(new Set(places).size).toBe(places.length);
  });
  test('holds nothing that a reader of PDF would do: whatever is typed is letters, and what cannot be printed is told', async () => {
    const piece = fc.oneof(fc.constantFrom(...HOSTILE_PIECES), fc.string({ unit: 'binary', maxLength: 5 }));
    const text = fc.array(piece, { maxLength: 30 }).map((pieces) => pieces.join(''));
    await fc.assert(
      fc.asyncProperty(text, text, text, text, async (title, reasons, yard, caption) => {
        const typed: Report = {
          ...report,
          ...{ yard, drillTitle: title, hand: caption, person: yard, material: title },
          pictures: report.pictures.map((picture) => ({ ...picture, caption })),
          measures: report.measures.map((measure) => ({ ...measure, name: title, note: reasons })),
          verdict: report.verdict && {
            ...report.verdict,
            ...{ assessor: yard, reasons, overruled: [{ name: title, from: 80, to: 50, reason: reasons }] },
          },
        };
        const { document, all } = await printed(await reportPdf(typed));
        const unprinted =
          (all.match(/\?/g) ?? []).length > 0 && ![title, reasons, yard, caption].some((one) => one.includes('?'));
        if (unprinted) expect(all).toContain('stand as a question mark');
        expect(deedsIn(document)).toEqual([]);
        expect(document.getTitle()).toBe(`Report of a training run: ${title}`);
      }),
      { seed: 20_260_104, numRuns: 60 },
    );
  });
  test('would be told from one that does something', async () => {
    const { document } = await printed(await reportPdf(report));
    document.addJavaScript('greet', 'app.alert(1)');
    expect(deedsIn(await PDFDocument.load(await document.save({ useObjectStreams: false })))).toContain('JavaScript');
  });
  test('of a run that broke off, without a verdict, a person or pictures, says so', async () => {
    const run = { ...readRun(runText), finished: false, score: null, trace: null };
    const bare = reportOf(run, { ...reportExtras(runText), person: null, verdict: null, pictures: [] });
    const { all } = await printed(await reportPdf(bare));
    for (const words of ['Not finished: no marks', 'No verdict yet', 'not named', 'No pictures', 'no traces'])
      expect(all).toContain(words);
  });
  test('of a run that its ledger speaks against, says so', async () => {
    const warning = 'This is not the run of who handed it in: the ledger has another person for it.';
    const { all } = await printed(await reportPdf(reportOf(readRun(runText), { ...reportExtras(runText), warning })));
    expect(all.replaceAll('\n', ' ')).toContain(warning);
  });
  test('of another core, with measures and evidence that this one does not know, is printed from what was kept', async () => {
    const strange = { id: 'grace', mark: 12.34, weight: 2, evidence: [{ fault: 'grace.none', fromTick: 'x' }], band: 'wide' };
    const run = { ...readRun(runText), coreVersion: '0.0.1', score: { score: 12.34, passed: false, measures: [strange] } };
    const other = reportOf(run, reportExtras(runText));
    expect(other.measures).toEqual([
      { name: 'grace', mark: 12.34, weight: 2, mustReach: null, note: null, fromS: null, overruledTo: null },
    ]);
    expect((await printed(await reportPdf(other))).all).toContain('grace');
  });
  test('refuses what is no PNG, a broken one, and more than there is room for', async () => {
    const run = readRun(runText);
    const extras = (...pngs: Uint8Array[]) => ({
      ...reportExtras(runText),
      pictures: pngs.map((png) => ({ caption: 'View', png })),
    });
    const good = samplePng(4, 4);
    expect(() => reportOf(run, extras(Buffer.from('GIF89a')))).toThrow('The picture "View" is no PNG.');
    expect(() => reportOf(run, extras(good, good, good))).toThrow('room for 2 pictures');
    const huge = Buffer.from(good);
    huge.writeUInt32BE(60_000, 16);
    huge.writeUInt32BE(60_000, 20);
    expect(() => reportOf(run, extras(huge))).toThrow('more than 16000000 pixels');
    // A chunk before IHDR would stand where width and height are looked for.
    const text = Buffer.from('\0\0\0\u0004tEXta\0\0b\0\0\0\0', 'latin1');
    const hidden = Buffer.concat([huge.subarray(0, 8), text, huge.subarray(8)]);
    expect(() => reportOf(run, extras(hidden))).toThrow('The picture "View" is no PNG.');
    await expect(reportPdf(reportOf(run, extras(good.subarray(0, 40))))).rejects.toMatchObject({ code: 'bad-file' });
  });
});
