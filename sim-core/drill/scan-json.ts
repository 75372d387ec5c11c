import type { ParseProblem } from './parse-problem.ts';

/** Deepest nesting that is read; far more than any file of ours has. */
const DEEPEST = 32;

/** Most values in one document: a pack of two hundred drills has a quarter of it, the run of an hour a tenth. */
const MOST_VALUES = 200_000;

/** Keys that could reach an object's prototype in careless code. No file of ours has them, so none gets past the door. */
const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype']);

/** A surrogate without its other half: there is no UTF-8 for it, so neither a digest nor a record of it (RFC 3629, section 3). */
const HALF_CHARACTER = /\p{Surrogate}/u;

class JsonFault extends Error {
  readonly offset: number;
  constructor(offset: number, sentence: string) {
    super(sentence);
    this.offset = offset;
  }
}

/**
 * Reads JSON text (RFC 8259) after walking over it once itself: engines word their syntax errors differently and often
 * without the place, and they let duplicate keys pass. The problem's path is `line L, column C`, counted from 1.
 */
export function scanJson(text: string): { ok: true; value: unknown } | { ok: false; problem: ParseProblem } {
  // A byte order mark is left by some editors and is no part of the file.
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  try {
    const walk = new JsonWalk(body);
    walk.document();
  } catch (error) {
    if (!(error instanceof JsonFault)) throw error;
    return { ok: false, problem: { path: placeOf(body, error.offset), sentence: error.message } };
  }
  return { ok: true, value: JSON.parse(body) as unknown };
}

function placeOf(text: string, offset: number): string {
  let line = 1;
  let lineStart = 0;
  for (let i = text.indexOf('\n'); i !== -1 && i < offset; i = text.indexOf('\n', i + 1)) {
    line++;
    lineStart = i + 1;
  }
  return `line ${line}, column ${offset - lineStart + 1}`;
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

class JsonWalk {
  private readonly text: string;
  private at = 0;
  private values = 0;

  constructor(text: string) {
    this.text = text;
  }

  document(): void {
    this.value(0);
    this.space();
    if (this.at < this.text.length) throw new JsonFault(this.at, 'The JSON ends before this character; nothing may follow it.');
  }

  private value(depth: number): void {
    this.space();
    this.values++;
    if (this.values > MOST_VALUES) throw new JsonFault(this.at, `The JSON holds more than ${MOST_VALUES} values.`);
    if (depth > DEEPEST) throw new JsonFault(this.at, `The JSON is nested deeper than ${DEEPEST} levels.`);
    const char = this.text[this.at];
    if (char === undefined) throw new JsonFault(this.at, 'The JSON stops in the middle; something is missing at its end.');
    if (char === '{') this.object(depth);
    else if (char === '[') this.list(depth);
    else if (char === '"') this.string();
    else if (!this.word('true') && !this.word('false') && !this.word('null')) this.number();
  }

  private object(depth: number): void {
    this.at++;
    const keys = new Set<string>();
    if (this.closes('}')) return;
    for (;;) {
      this.space();
      const keyAt = this.at;
      if (this.text[keyAt] !== '"') throw this.fault('A field name in double quotes is expected here.');
      const key = this.string();
      if (FORBIDDEN_KEYS.has(key)) throw new JsonFault(keyAt, `The field name "${key}" is not allowed.`);
      if (keys.has(key)) throw new JsonFault(keyAt, `The field "${key.slice(0, 60)}" stands twice in the same object.`);
      keys.add(key);
      this.space();
      if (this.text[this.at] !== ':') throw this.fault('A colon is expected after the field name.');
      this.at++;
      this.value(depth + 1);
      if (this.closes('}')) return;
      if (this.text[this.at] !== ',') throw this.fault('A comma or a closing brace is expected here.');
      this.at++;
    }
  }

  private list(depth: number): void {
    this.at++;
    if (this.closes(']')) return;
    for (;;) {
      this.value(depth + 1);
      if (this.closes(']')) return;
      if (this.text[this.at] !== ',') throw this.fault('A comma or a closing bracket is expected here.');
      this.at++;
    }
  }

  // A loop and no single pattern: inputs of a long run are megabytes in one string, too deep for a backtracking matcher.
  private string(): string {
    const from = this.at;
    let mayHoldHalves = false;
    for (let i = from + 1; i < this.text.length; i++) {
      const code = this.text.charCodeAt(i);
      if (code === 0x22) {
        this.at = i + 1;
        const text = JSON.parse(this.text.slice(from, i + 1)) as string;
        if (mayHoldHalves && HALF_CHARACTER.test(text))
          throw new JsonFault(from, 'This text holds half a character, which no file can keep.');
        return text;
      }
      if (code < 0x20) throw new JsonFault(i, 'A text may hold no line break, tab or other control character.');
      if (code >= 0xd800 && code < 0xe000) mayHoldHalves = true;
      if (code !== 0x5c) continue;
      mayHoldHalves = true;
      ESCAPE.lastIndex = i;
      if (!ESCAPE.test(this.text)) throw new JsonFault(i, 'After this backslash no known escape follows.');
      i = ESCAPE.lastIndex - 1;
    }
    throw new JsonFault(from, 'This text is not closed by a double quote.');
  }

  private number(): void {
    NUMBER.lastIndex = this.at;
    const match = NUMBER.exec(this.text);
    if (!match)
      throw new JsonFault(this.at, 'A value is expected here: text in double quotes, a number, true, false, null, { or [.');
    this.at = NUMBER.lastIndex;
    if (!Number.isFinite(Number(match[0]))) throw new JsonFault(match.index, 'This number is too large to be held.');
  }

  private word(word: string): boolean {
    if (!this.text.startsWith(word, this.at)) return false;
    this.at += word.length;
    return true;
  }

  private closes(char: string): boolean {
    this.space();
    if (this.text[this.at] !== char) return false;
    this.at++;
    return true;
  }

  private space(): void {
    for (;;) {
      const char = this.text[this.at];
      if (char !== ' ' && char !== '\n' && char !== '\r' && char !== '\t') return;
      this.at++;
    }
  }

  private fault(sentence: string): JsonFault {
    const ended = this.at >= this.text.length;
    return new JsonFault(this.at, ended ? 'The JSON stops in the middle; something is missing at its end.' : sentence);
  }
}
