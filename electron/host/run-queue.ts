/** Runs tasks of the same key one after another, in the order in which they came; different keys do not wait for each other. */
export class RunQueue {
  readonly #tails = new Map<string, Promise<unknown>>();

  inOrder<T>(key: string, task: () => Promise<T>): Promise<T> {
    const before = this.#tails.get(key) ?? Promise.resolve();
    const result = before.then(task);
    const tail = result.then(
      () => undefined,
      () => undefined,
    );
    this.#tails.set(key, tail);
    void tail.then(() => {
      if (this.#tails.get(key) === tail) this.#tails.delete(key);
    });
    return result;
  }
}
