// What another program or another web page on the same machine may try against the loopback host.

import { rmSync, symlinkSync } from 'node:fs';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { VERB_NAMES } from '../../electron/contract.ts';
import { listPageFiles } from '../../electron/host/page-files.ts';
import { temporaryFolder } from '../host/open-test-host.ts';
import { openTestLoopback, writeTestPage } from './open-test-loopback.ts';
import { sampleRequest } from './sample-request.ts';

describe('the token', () => {
  test('opens the session once, with a cookie that scripts and other sites do not get; then it is dead', async () => {
    const { server, origin, send } = await openTestLoopback();
    const target = server.address.slice(origin.length);
    const opened = await send('GET', target);
    expect([opened.status, opened.headers.location]).toEqual([303, '/']);
    expect(opened.headers['set-cookie']).toHaveLength(1);
    expect(opened.headers['set-cookie']?.[0]).toMatch(/^kerfhand-\d+=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
    const again = await send('GET', target);
    expect(again.status).toBe(403);
    expect(again.headers['set-cookie']).toBeUndefined();
    expect(again.text).toMatch(/used already or is wrong/);
    const cookie = opened.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
    expect((await send('GET', '/', { cookie })).text).toContain('<title>Kerfhand</title>');
  });

  test('wrong, empty and missing ones open nothing and do not use it up', async () => {
    const { send, openSession } = await openTestLoopback();
    for (const target of ['/', '/?token=', '/?token=wrong', `/?token=${'A'.repeat(43)}`, '/assets/page.js', '/?token[]=x']) {
      const reply = await send('GET', target);
      expect([target, reply.status, reply.headers['set-cookie']]).toEqual([target, 403, undefined]);
    }
    expect(await openSession()).toMatch(/^kerfhand-/);
  });

  test('is different at every start', async () => {
    const addresses = await Promise.all([openTestLoopback(), openTestLoopback()]);
    const tokens = addresses.map(({ server }) => new URL(server.address).searchParams.get('token') ?? '');
    expect(tokens[0]).not.toBe(tokens[1]);
    expect(tokens.every((token) => token.length >= 43)).toBe(true);
  });
});

describe('calls', () => {
  test('from the page are answered; without or with a wrong cookie they are refused', async () => {
    const { send, openSession, asPage } = await openTestLoopback();
    const cookie = await openSession();
    const good = await send('POST', '/call/getSession', asPage(cookie), '{}');
    expect(good.status).toBe(200);
    expect(JSON.parse(good.text)).toMatchObject({ ok: true, reply: { shell: 'loopback', keepsRecords: true } });
    const [name] = cookie.split('=');
    for (const other of ['', `${name}=`, `${name}=wrong`, cookie.slice(0, -1), `x${cookie}`, cookie.replace('=', '-other=')]) {
      const reply = await send('POST', '/call/getSession', asPage(other), '{}');
      expect([other, reply.status]).toEqual([other, 403]);
      expect(JSON.parse(reply.text)).toMatchObject({ ok: false, error: { code: 'forbidden' } });
    }
  });

  test('of every verb of the contract are refused without the cookie, with a guessed one, and with that of an earlier start', async () => {
    const { send, openSession, asPage } = await openTestLoopback();
    const earlier = await openTestLoopback();
    const cookie = await openSession();
    const stale = await earlier.openSession();
    for (const verb of VERB_NAMES) {
      for (const other of ['', stale, `${cookie.split('=')[0]}=${'A'.repeat(43)}`]) {
        const reply = await send('POST', `/call/${verb}`, asPage(other), JSON.stringify(sampleRequest(verb)));
        expect([verb, reply.status]).toEqual([verb, 403]);
      }
    }
  });

  test('with a Host that is not this very address are refused (names made to point here)', async () => {
    const { server, origin, send, openSession, asPage } = await openTestLoopback();
    const cookie = await openSession();
    const { port } = server;
    for (const host of [
      'evil.example',
      `evil.example:${port}`,
      `localhost:${port}`,
      '127.0.0.1',
      `127.0.0.1:${port + 1}`,
      `[::1]:${port}`,
      `127.0.0.1.evil.example:${port}`,
    ]) {
      const headers = { ...asPage(cookie), host };
      expect([host, (await send('POST', '/call/getSession', headers, '{}')).status]).toEqual([host, 403]);
      expect([host, (await send('GET', '/', headers)).status]).toEqual([host, 403]);
      expect([host, (await send('GET', server.address.slice(origin.length), { host })).status]).toEqual([host, 403]);
    }
  });

  test('with a foreign, null or missing Origin, or marked as cross-site by the browser, are refused', async () => {
    const { server, origin, send, openSession, asPage } = await openTestLoopback();
    const cookie = await openSession();
    for (const other of [
      'https://evil.example',
      'null',
      `http://localhost:${server.port}`,
      `https://127.0.0.1:${server.port}`,
      'http://127.0.0.1',
      `${origin}.evil.example`,
      '',
    ]) {
      expect([other, (await send('POST', '/call/getSession', { ...asPage(cookie), origin: other }, '{}')).status]).toEqual([
        other,
        403,
      ]);
      expect([other, (await send('GET', '/', { cookie, origin: other })).status]).toEqual([other, 403]);
    }
    expect((await send('POST', '/call/getSession', { cookie, 'content-type': 'application/json' }, '{}')).status).toBe(403);
    for (const site of ['cross-site', 'same-site']) {
      expect((await send('GET', '/', { cookie, 'sec-fetch-site': site })).status).toBe(403);
    }
    expect((await send('GET', '/', { cookie, 'sec-fetch-site': 'none' })).status).toBe(200);
  });

  test('as a form, as text, by GET or with a broken body are refused and do nothing', async () => {
    const { host, send, openSession, asPage } = await openTestLoopback();
    const cookie = await openSession();
    const body = '{"role":"apprentice"}';
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data', 'application/jsonx', '']) {
      expect((await send('POST', '/call/createPerson', { ...asPage(cookie), 'content-type': type }, body)).status).toBe(415);
    }
    for (const method of ['GET', 'HEAD', 'PUT', 'DELETE', 'PATCH', 'OPTIONS']) {
      expect(
        (await send(method, '/call/createPerson', asPage(cookie), method === 'GET' || method === 'HEAD' ? undefined : body))
          .status,
      ).toBe(405);
    }
    for (const broken of ['', '{', 'role=apprentice', Buffer.from([0x7b, 0xff, 0x7d])]) {
      const reply = await send('POST', '/call/createPerson', asPage(cookie), broken);
      expect([reply.status, JSON.parse(reply.text).error.code]).toEqual([400, 'bad-request']);
    }
    expect((await host.ask('listPeople', {})).people).toEqual([]);
  });

  test('to a verb that does not exist, or a name every object has, are refused', async () => {
    const { send, openSession, asPage } = await openTestLoopback();
    const cookie = await openSession();
    for (const verb of [
      'nope',
      '',
      'constructor',
      '__proto__',
      'toString',
      'getSession/',
      'getSession/../nope',
      'getSession%00',
      'getsession',
    ]) {
      const reply = await send('POST', `/call/${verb}`, asPage(cookie), '{}');
      expect([verb, JSON.parse(reply.text)]).toMatchObject([verb, { ok: false, error: { code: 'bad-request' } }]);
    }
  });
});

describe('files', () => {
  test('come with the strict policy and the right type', async () => {
    const { send, openSession } = await openTestLoopback();
    const cookie = await openSession();
    const script = await send('GET', '/assets/page.js', { cookie });
    expect(script.headers['content-type']).toBe('text/javascript; charset=utf-8');
    const policy = String(script.headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe|\*/);
    expect(script.headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'cross-origin-opener-policy': 'same-origin',
      'referrer-policy': 'no-referrer',
    });
    const head = await send('HEAD', '/assets/page.js', { cookie });
    expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', script.headers['content-length']]);
  });

  test('outside of the page are out of reach, however they are spelt', async () => {
    const { send, sendRaw, server, openSession } = await openTestLoopback();
    const cookie = await openSession();
    const targets = [
      '/../secret.txt',
      '/..%2fsecret.txt',
      '/%2e%2e/secret.txt',
      '/assets/../../secret.txt',
      '/assets/%2e%2e%2f%2e%2e%2fsecret.txt',
      '/..\\secret.txt',
      '/..%5csecret.txt',
      '//secret.txt',
      '/./../secret.txt',
      '/secret.txt%00.js',
      '/%c0%ae%c0%ae/secret.txt',
      'file:///etc/passwd',
      '/etc/passwd',
      '/assets',
      '/assets/',
      '/%',
    ];
    for (const target of targets) {
      const raw = await sendRaw(
        `GET ${target} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`,
      );
      expect([target, /^HTTP\/1\.1 (400|404) /.test(raw), raw.includes('secret\n') || raw.includes('root:')]).toEqual([
        target,
        true,
        false,
      ]);
    }
    expect((await send('GET', '/index.html', { cookie })).status).toBe(200);
  });

  test('that are links to elsewhere, or of an unknown kind, are not part of the page', () => {
    const folder = temporaryFolder();
    const page = writeTestPage(folder);
    symlinkSync(path.join(folder, 'secret.txt'), path.join(page, 'link.txt'));
    symlinkSync(folder, path.join(page, 'up'));
    expect([...listPageFiles(page).keys()].toSorted()).toEqual(['/', '/assets/page.js', '/index.html']);
    expect(() => listPageFiles(path.join(folder, 'nowhere'))).toThrow(/The page is not built/);
  });
});

/** Sends a beginning and then a letter now and then, for as long as it is let; gives what came back. */
function drip(port: number, beginning: string): Promise<string> {
  return new Promise((resolve) => {
    let text = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(beginning));
    const dripping = setInterval(() => socket.write('x'), 60);
    socket.setEncoding('utf8').on('data', (part) => {
      text += part;
    });
    // Whoever is cut off in the middle of a letter is told so by a broken connection.
    socket.on('error', () => undefined);
    socket.on('close', () => {
      clearInterval(dripping);
      resolve(text);
    });
  });
}

describe('limits', () => {
  test('a body over the limit is refused, announced or not, and the next call works', async () => {
    const { send, sendRaw, server, origin, openSession, asPage } = await openTestLoopback({ requestLimitBytes: 100_000 });
    const cookie = await openSession();
    const large = JSON.stringify({ text: 'x'.repeat(200_000) });
    const announced = await send(
      'POST',
      '/call/checkDrill',
      { ...asPage(cookie), 'content-length': String(large.length) },
      large,
    ).catch(() => null);
    if (announced) expect([announced.status, JSON.parse(announced.text).error.code]).toEqual([413, 'too-large']);
    const head = `POST /call/checkDrill HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nOrigin: ${origin}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n`;
    const chunk = `${(50_000).toString(16)}\r\n${'x'.repeat(50_000)}\r\n`;
    expect(await sendRaw(head + chunk.repeat(3))).toMatch(/^HTTP\/1\.1 413 [\s\S]*"too-large"/);
    const announcedRaw = `${head.replace('Transfer-Encoding: chunked', 'Content-Length: 99999999')}{`;
    expect(await sendRaw(announcedRaw)).toMatch(/^HTTP\/1\.1 413 [\s\S]*"too-large"/);
    expect((await send('POST', '/call/getSession', asPage(cookie), '{}')).status).toBe(200);
  });

  test('a body that never ends is cut off', async () => {
    const { sendRaw, server, origin, openSession } = await openTestLoopback({ requestLimitMs: 2000 });
    const cookie = await openSession();
    const reply = await sendRaw(
      `POST /call/getSession HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nOrigin: ${origin}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nContent-Length: 10\r\n\r\n{`,
    );
    expect(reply).toMatch(/^HTTP\/1\.1 408 |^$/);
  });

  test('many that drip byte by byte are all cut off, and others are answered meanwhile', async () => {
    const { send, server, origin, openSession, asPage } = await openTestLoopback({ requestLimitMs: 5000 });
    const cookie = await openSession();
    const head = `POST /call/getSession HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nOrigin: ${origin}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nContent-Length: 5000\r\n\r\n{`;
    const bodies = Array.from({ length: 100 }, () => drip(server.port, head));
    const headers = Array.from({ length: 100 }, () => drip(server.port, 'GET / HTTP/1.1\r\nX-Long: '));
    for (let n = 0; n < 5; n += 1) expect((await send('POST', '/call/getSession', asPage(cookie), '{}')).status).toBe(200);
    for (const reply of await Promise.all([...bodies, ...headers])) expect(reply).toMatch(/^HTTP\/1\.1 40[08] |^$/);
    expect((await send('POST', '/call/getSession', asPage(cookie), '{}')).status).toBe(200);
  });

  test('headers that never end are cut off', async () => {
    const { sendRaw } = await openTestLoopback({ requestLimitMs: 2000 });
    expect(await sendRaw('GET / HTTP/1.1\r\nHost: ')).toMatch(/^HTTP\/1\.1 408 |^$/);
  });

  test('only the loopback interface listens', async () => {
    const { server } = await openTestLoopback();
    const others = Object.values(networkInterfaces())
      .flat()
      .filter((face) => face !== undefined && !face.internal && face.family === 'IPv4');
    for (const face of others) {
      const refused = await new Promise((resolve) => {
        const socket = connect(server.port, face!.address, () => resolve('connected'));
        socket.on('error', (error: NodeJS.ErrnoException) => resolve(error.code));
      });
      expect(refused).toBe('ECONNREFUSED');
    }
  });
});

test('a file of the page that cannot be read is a fault of the host, in the log and not blamed on the request', async () => {
  const log: string[] = [];
  const page = writeTestPage(temporaryFolder());
  const { send, openSession } = await openTestLoopback({ pageFiles: listPageFiles(page), log: (line) => log.push(line) });
  const cookie = await openSession();
  rmSync(path.join(page, 'assets', 'page.js'));
  const reply = await send('GET', '/assets/page.js', { cookie });
  expect([reply.status, reply.text]).toEqual([500, 'Something went wrong inside Kerfhand; what was kept before is safe.\n']);
  expect(log).toEqual([expect.stringMatching(/^GET: Error: ENOENT/)]);
});
