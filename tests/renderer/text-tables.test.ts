import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { errorWords } from '../../renderer/app/error-words.ts';
import { HostError } from '../../renderer/app/host-client.ts';
import { bytesWords } from '../../renderer/desk/bytes-words.ts';
import { sumWords, titlesWords } from '../../renderer/register/assignment-words.ts';
import { dayText, momentText } from '../../renderer/register/dates.ts';
import { personText } from '../../renderer/register/person-text.ts';
import { de } from '../../renderer/text/de.ts';
import { en, type TextKey } from '../../renderer/text/en.ts';
import { splitAtEnglish } from '../../renderer/text/in-english.ts';
import { languageOf, speak } from '../../renderer/text/language.ts';
import { say, sayIn } from '../../renderer/text/say.ts';
import { money } from '../../renderer/ui/money.ts';
import { decimalSign, numberText, percentText } from '../../renderer/ui/number-text.ts';
import { band, clock, quantity } from '../../renderer/ui/units.ts';
import { biasWords } from '../../renderer/verdict/moderation-figures.ts';
import { readSourceTree, TOP } from '../house/source-tree.ts';
import { syntaxTree, walk } from '../house/syntax-tree.ts';

const KEYS = Object.keys(en) as TextKey[];
const PLACEHOLDER = /\{([a-zA-Z]+)\}/g;

function placeholdersOf(words: string): string {
  return [...words.matchAll(PLACEHOLDER)]
    .map(([, name]) => name)
    .sort()
    .join(' ');
}

/** Keys whose words are the same in both languages: a name, a paragraph of a law, a term or a unit that German has as well. */
const SAME_IN_BOTH: ReadonlySet<TextKey> = new Set([
  'app.name',
  'material.aluminium',
  'keys.gamepad',
  'controls.pad',
  'sign.passphrase',
  'demo.passphrase',
  'camera.title',
  'cost.line.gas',
  'rig.sheet.gas',
  'signs.regulator',
  'builder.turn.radius',
  'builder.version',
  'moderation.make.title',
  'moderation.icc',
  'restore.facts',
  'rig.watch.minutes',
  'hand.screen.px',
  'hand.result.px',
  'caution.eyes.source',
  'caution.fume.source',
  'caution.coatings.source',
  'caution.noise.source',
  'caution.compressed-gas.source',
  'caution.closed-container.source',
]);

/** A text of placeholders, signs and single letters, with no word of a language. */
const isWordless = (words: string) => !/\p{L}{2}/u.test(words.replace(PLACEHOLDER, ''));

afterEach(() => speak('en'));

describe('the German table', () => {
  test('every key asks for the same values in both languages', () => {
    expect(KEYS.filter((key) => placeholdersOf(en[key]) !== placeholdersOf(de[key]))).toEqual([]);
  });

  test('nothing is left in English but what is stated, and nothing is empty that is not empty in English', () => {
    const same = KEYS.filter((key) => en[key] === de[key] && !isWordless(en[key]));
    expect(same.filter((key) => !SAME_IN_BOTH.has(key))).toEqual([]);
    expect([...SAME_IN_BOTH].filter((key) => !same.includes(key))).toEqual([]);
    expect(KEYS.filter((key) => (en[key] === '') !== (de[key] === ''))).toEqual([]);
  });

  test('cautions carry the same figures and the same paragraphs', () => {
    const figuresOf = (words: string) => [...words.matchAll(/\d[\d.,]*\d|\d/g)].map(([figure]) => figure.replace(',', '.'));
    for (const key of KEYS.filter((one) => one.startsWith('caution.') || one.startsWith('finding.')))
      expect(figuresOf(de[key]), key).toEqual(figuresOf(en[key]));
  });

  test('quotation marks are those of the language, and a sentence that ends in English ends in German', () => {
    expect(KEYS.filter((key) => /[“”"'’]/.test(de[key].replace(/„[^„“]*“/g, '')))).toEqual([]);
    const ends = (words: string) => /[.!?…:]$/.test(words);
    expect(KEYS.filter((key) => ends(en[key]) !== ends(de[key]))).toEqual([]);
  });
});

describe('the spoken language', () => {
  test('words, figures, dates and people follow it; an unknown one is English', () => {
    const at = '2031-03-20T10:59:00';
    expect([say('bench.back'), quantity(1.55, 'mm', 'metric'), percentText(40), personText('Apprentice 04')]).toEqual([
      'Home',
      '1.6\u00a0mm',
      '40%',
      'Apprentice 04',
    ]);
    speak(languageOf('de'));
    expect(say('bench.back')).toBe('Start');
    expect(quantity(1.55, 'mm', 'metric')).toBe('1,6\u00a0mm');
    expect(quantity(-12.25, 'fine-mm', 'inch')).toBe('\u22120,482\u00a0in');
    expect(quantity(-0.01, 'mm', 'metric')).toBe('0,0\u00a0mm');
    expect(quantity(0.4, 'share', 'metric')).toBe('40\u00a0%');
    expect(band(null, 1, 'mm', 'metric')).toBe('≤ 1,0\u00a0mm');
    expect(clock(67.3)).toBe('1:07,3');
    expect(money(1234.5, '€')).toBe('€\u00a01.234,50');
    expect([numberText(2.5, 1), decimalSign()]).toEqual(['2,5', ',']);
    expect(momentText(at)).toBe('20. März 2031, 10:59');
    expect(dayText(at)).toBe('Do., 20. März 2031');
    expect(personText('Apprentice 04')).toBe('Azubi 04');
    expect(personText('Reference hand')).toBe('Reference hand');
    expect(biasWords(-0.04, 'A', 'B')).toBe('Im Mittel gaben A und B dieselben Punkte.');
    expect(say('guide.progress', { percent: percentText(40) })).toBe('40\u00a0% der Linie');
    speak(languageOf('tlh'));
    expect(say('bench.back')).toBe('Home');
  });

  test('counts, quotes and lengths of files follow the language', () => {
    expect([sumWords(1, 1), sumWords(2, 3)]).toEqual([
      '1 drill for 1 apprentice, each counted once.',
      '2 drills for 3 apprentices, each counted once.',
    ]);
    expect([bytesWords(300), bytesWords(4200), bytesWords(187e6)]).toEqual(['300\u00a0bytes', '4.2\u00a0kB', '187\u00a0MB']);
    speak('de');
    expect([sumWords(1, 1), sumWords(2, 3)]).toEqual([
      '1 Übung für 1 Azubi, jeder einmal gezählt.',
      '2 Übungen für 3 Azubis, jeder einmal gezählt.',
    ]);
    expect(titlesWords([{ title: 'Kante' }, { title: 'Ecke' }])).toBe('„Kante“, „Ecke“');
    expect([bytesWords(300), bytesWords(4200)]).toEqual(['300\u00a0Bytes', '4,2\u00a0kB']);
  });

  test('a language has one and the same way of saying, so that what hangs on it is made anew only in another', () => {
    expect(sayIn('de')).toBe(sayIn('de'));
    expect(sayIn('de')).not.toBe(sayIn('en'));
  });

  test('what the host says stays as it is in English; in German its code is said in German, and its own words are told as English', () => {
    const refused = new HostError('not-found', 'There is no run x.');
    expect(errorWords(refused)).toBe('There is no run x.');
    speak('de');
    expect(splitAtEnglish(errorWords(refused))).toEqual(['Das gibt es nicht oder nicht mehr. ', 'There is no run x.', '']);
    expect(splitAtEnglish(errorWords(new HostError('wrong-passphrase', 'No.')))).toEqual(['Die Passphrase stimmt nicht.']);
    expect(splitAtEnglish(errorWords(new Error('broken')))).toEqual(['', 'broken', '']);
  });

  test('nothing is said while a file is loaded: it would stay in the language of that moment', () => {
    const files = readSourceTree(join(TOP, 'renderer')).filter(({ path }) => /\.tsx?$/.test(path));
    const early: string[] = [];
    for (const file of files) {
      const functions: { start: number; end: number }[] = [];
      const calls: number[] = [];
      walk(syntaxTree(file), (node) => {
        if (/Function/.test(node.type) || node.type === 'MethodDefinition') functions.push(node);
        if (node.type !== 'CallExpression') return;
        const { type, name } = node.callee as { type: string; name?: string };
        if (type === 'Identifier' && name === 'say') calls.push(node.start);
      });
      if (calls.some((at) => !functions.some(({ start, end }) => start <= at && at < end))) early.push(file.path);
    }
    expect(files.length).toBeGreaterThan(300);
    expect(early).toEqual([]);
  });
});
