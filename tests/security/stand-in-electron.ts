// Electron for machines that have none: as much of its interface as main.ts and preload.ts use, with a real Chromium page behind
// each window. kerfhand://app/ cannot be an address in a plain browser, so the page lives at PAGE_STAND_IN and every address is
// translated both ways; what is served there comes from the handler that main.ts registered, headers included. Rules of Electron
// that main.ts relies on are kept: the preload runs in the main frame only, events can be prevented, handlers decide.
import { EventEmitter } from 'node:events';
import type { Browser, Frame, Page, Request as PageRequest, Route } from '@playwright/test';

const PAGE_STAND_IN = 'https://app.kerfhand.invalid/';
const PAGE_ADDRESS = 'kerfhand://app/';
const toElectron = (address: string) => address.replace(PAGE_STAND_IN, PAGE_ADDRESS);
const toBrowser = (address: string) => address.replace(PAGE_ADDRESS, PAGE_STAND_IN);

type Handler = (...values: never[]) => unknown;
type Verbs = Record<string, (request: unknown) => Promise<unknown>>;

interface FrameStandIn {
  readonly url: string;
  readonly parent: FrameStandIn | null;
}

/** An event whose default can be prevented, as Electron's. */
class PreventableEvent {
  prevented = false;
  preventDefault(): void {
    this.prevented = true;
  }
}

export interface StandInOptions {
  browser: Browser;
  /** Runs the real preload; called when a window loads its first page. */
  runPreload: () => Promise<void>;
  singleInstance?: boolean;
  saveTo?: string | null;
}

/** A fresh Electron: `modules` is what `import 'electron'` gives, the rest is for the test to look at. */
export function createStandInElectron(options: StandInOptions) {
  const record = {
    errors: [] as string[],
    exitCode: null as number | null,
    quitAsked: false,
    sandboxed: false,
    schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
    windows: [] as BrowserWindow[],
    exposed: {} as Record<string, Verbs>,
    requested: [] as string[],
    menu: undefined as unknown,
  };
  const protocolHandlers = new Map<string, (request: Request) => Promise<Response>>();
  const ipcHandlers = new Map<string, (event: unknown, ...values: unknown[]) => unknown>();
  const session = createSession();
  /** The frame whose script is calling: preload functions are called synchronously from the binding. */
  let caller: { sender: WebContents; senderFrame: FrameStandIn } | null = null;

  const app = Object.assign(new EventEmitter(), {
    isPackaged: false,
    whenReady: async () => undefined,
    requestSingleInstanceLock: () => options.singleInstance ?? true,
    enableSandbox: () => {
      record.sandboxed = true;
    },
    getPath: () => '/documents',
    quit: () => {
      record.quitAsked = true;
    },
    exit: (code: number) => {
      record.exitCode = code;
    },
  });

  class WebContents extends EventEmitter {
    page: Page | null = null;
    openHandler: (details: { url: string }) => { action: string } = () => ({ action: 'allow' });
    readonly #frames = new Map<Frame, FrameStandIn>();
    #loading = false;

    setWindowOpenHandler(handler: WebContents['openHandler']): void {
      this.openHandler = handler;
    }
    getURL(): string {
      return toElectron(this.page?.url() ?? '');
    }
    get mainFrame(): FrameStandIn | null {
      return this.page ? this.frameFor(this.page.mainFrame()) : null;
    }
    frameFor(frame: Frame): FrameStandIn {
      const known = this.#frames.get(frame);
      if (known) return known;
      const parent = frame.parentFrame();
      const made = {
        get url() {
          return toElectron(frame.url());
        },
        parent: parent ? this.frameFor(parent) : null,
      };
      this.#frames.set(frame, made);
      return made;
    }

    async load(address: string): Promise<void> {
      const context = await options.browser.newContext();
      const page = await context.newPage();
      this.page = page;
      await options.runPreload();
      await page.exposeBinding('standInCall', (source, name: string, verb: string, request: unknown) =>
        this.callFrom(source.frame, () => record.exposed[name]?.[verb]?.(request)),
      );
      // What a page that had broken out of its frame could send: any channel, any values.
      await page.exposeBinding('standInInvoke', (source, channel: string, ...values: unknown[]) =>
        this.callFrom(source.frame, () => ipcRenderer.invoke(channel, ...values)),
      );
      const exposed = Object.fromEntries(Object.entries(record.exposed).map(([name, verbs]) => [name, Object.keys(verbs)]));
      await page.addInitScript((names: Record<string, string[]>) => {
        if (window !== window.top) return;
        const call = Reflect.get(window, 'standInCall') as (...values: unknown[]) => unknown;
        for (const [name, verbs] of Object.entries(names)) {
          const functions = verbs.map((verb) => [verb, (request: unknown) => call(name, verb, request)]);
          Object.defineProperty(window, name, { value: Object.freeze(Object.fromEntries(functions)) });
        }
      }, exposed);
      await context.route('**', (route) => this.#answer(route));
      page.on('popup', (popup) => {
        if (this.openHandler({ url: toElectron(popup.url()) }).action === 'deny') void popup.close();
      });
      this.#loading = true;
      await page.goto(toBrowser(address));
      this.#loading = false;
    }

    callFrom<T>(frame: Frame, call: () => T): T {
      caller = { sender: this, senderFrame: this.frameFor(frame) };
      try {
        return call();
      } finally {
        caller = null;
      }
    }

    async #answer(route: Route): Promise<void> {
      const request = route.request();
      const url = toElectron(request.url());
      record.requested.push(url);
      if (request.isNavigationRequest() && !this.#loading && !this.#mayNavigate(frameOf(request), url))
        return await route.abort('aborted');
      if (session.cancels(url)) return await route.abort('blockedbyclient');
      const scheme = URL.canParse(url) ? new URL(url).protocol.slice(0, -1) : '';
      const handler = protocolHandlers.get(scheme);
      if (!handler) return await route.fulfill({ status: 200, contentType: 'text/html', body: '<title>Elsewhere</title>' });
      const reply = await handler(new Request(url, { method: request.method() }));
      const body = Buffer.from(await reply.arrayBuffer());
      return await route.fulfill({ status: reply.status, headers: Object.fromEntries(reply.headers), body });
    }

    /** @param frame null for a window that is about to open */
    #mayNavigate(frame: Frame | null, url: string): boolean {
      if (frame === null) return this.openHandler({ url }).action !== 'deny';
      const event = Object.assign(new PreventableEvent(), { url });
      this.emit('will-frame-navigate', event);
      if (frame === this.page?.mainFrame()) this.emit('will-navigate', event, url);
      return !event.prevented;
    }
  }

  class BrowserWindow extends EventEmitter {
    readonly webContents = new WebContents();
    readonly options: { webPreferences: Record<string, unknown> };
    focused = 0;
    loaded: Promise<void> = Promise.resolve();

    constructor(given: { webPreferences: Record<string, unknown> }) {
      super();
      this.options = given;
      record.windows.push(this);
      app.emit('web-contents-created', {}, this.webContents);
    }
    loadURL(address: string): Promise<void> {
      this.loaded = this.webContents.load(address).then(() => {
        this.emit('ready-to-show');
      });
      return this.loaded;
    }
    show(): void {}
    isMinimized(): boolean {
      return false;
    }
    restore(): void {}
    focus(): void {
      this.focused++;
    }
  }

  const ipcRenderer = {
    invoke: async (channel: string, ...values: unknown[]) => {
      const handler = ipcHandlers.get(channel);
      if (!handler) throw new Error(`No handler registered for '${channel}'`);
      return await handler(caller, ...values);
    },
  };

  const modules = {
    app,
    BrowserWindow,
    session: { defaultSession: session },
    ipcMain: { handle: (channel: string, handler: (event: unknown) => unknown) => ipcHandlers.set(channel, handler) },
    ipcRenderer,
    contextBridge: {
      exposeInMainWorld: (name: string, verbs: Verbs) => {
        record.exposed[name] = verbs;
      },
    },
    protocol: {
      registerSchemesAsPrivileged: (schemes: typeof record.schemes) => record.schemes.push(...schemes),
      handle: (scheme: string, handler: (request: Request) => Promise<Response>) => protocolHandlers.set(scheme, handler),
    },
    dialog: {
      showErrorBox: (title: string, content: string) => record.errors.push(`${title}: ${content}`),
      showSaveDialog: async () =>
        options.saveTo ? { canceled: false, filePath: options.saveTo } : { canceled: true, filePath: '' },
    },
    Menu: {
      setApplicationMenu: (menu: unknown) => {
        record.menu = menu;
      },
    },
  };
  return { modules, record, app, session, ipcHandlers, PreventableEvent };
}

/** The frame that a request is for; a new window's first request comes before its frame. */
function frameOf(request: PageRequest): Frame | null {
  try {
    return request.frame();
  } catch {
    return null;
  }
}

/** Electron's session: handlers that decide, nothing allowed or cancelled by the stand-in itself. */
function createSession() {
  const handlers: Record<string, Handler> = {};
  let network: {
    urls: string[];
    listener: (details: { url: string }, answer: (reply: { cancel?: boolean }) => void) => void;
  } | null = null;
  return Object.assign(new EventEmitter(), {
    handlers,
    setPermissionRequestHandler: (handler: Handler) => {
      handlers.request = handler;
    },
    setPermissionCheckHandler: (handler: Handler) => {
      handlers.check = handler;
    },
    setDevicePermissionHandler: (handler: Handler) => {
      handlers.device = handler;
    },
    webRequest: {
      onBeforeRequest: (filter: { urls: string[] }, listener: NonNullable<typeof network>['listener']) => {
        network = { urls: filter.urls, listener };
      },
    },
    cancels(url: string): boolean {
      const scheme = URL.canParse(url) ? new URL(url).protocol : '';
      if (!network?.urls.some((pattern) => pattern.startsWith(`${scheme}//`))) return false;
      let cancelled = false;
      network.listener({ url }, (reply) => {
        cancelled = reply.cancel === true;
      });
      return cancelled;
    },
  });
}
