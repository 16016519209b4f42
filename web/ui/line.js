// The line to the engine: one message under way, the others wait their turn, and of those that wait in the
// same slot only the newest stays.

export class Line {
  constructor(onFault) {
    this.engine = null;
    this.waiting = [];
    this.busy = false;
    this.onFault = onFault;
  }

  connect(engine) {
    this.engine = engine;
    this.next();
  }

  // `work(engine)` runs when its turn comes; the promise gives its result, or undefined if a newer one took the slot.
  run(slot, work, { urgent = false } = {}) {
    return new Promise((resolve, reject) => {
      const job = { slot, work, resolve, reject, urgent };
      const place = slot === null ? -1 : this.waiting.findIndex((other) => other.slot === slot);
      if (place >= 0) {
        this.waiting[place].resolve(undefined);
        this.waiting[place] = job;
      } else if (urgent) {
        const behind = this.waiting.findIndex((other) => !other.urgent);
        this.waiting.splice(behind < 0 ? this.waiting.length : behind, 0, job);
      } else this.waiting.push(job);
      this.next();
    });
  }

  // Ask one thing. A fault of the engine is reported, and the engine is started anew.
  ask(slot, op, args, options) {
    return this.run(slot, () => this.call(op, typeof args === "function" ? args() : args), options);
  }

  async call(op, args) {
    let answer;
    try {
      answer = await this.engine.call(op, args);
    } catch (error) {
      answer = { ok: false, problem: { code: "engine_fault", path: "", params: { detail: String(error?.stack ?? error) } } };
    }
    if (!answer.ok && answer.problem?.code === "engine_fault") {
      this.onFault({ op, problem: answer.problem });
      try {
        await this.engine.restart();
      } catch {
        // the fault is on the page already
      }
    }
    return answer;
  }

  async next() {
    if (this.busy || !this.engine || !this.waiting.length) return;
    this.busy = true;
    const job = this.waiting.shift();
    try {
      job.resolve(await job.work(this));
    } catch (error) {
      job.reject(error);
    } finally {
      this.busy = false;
      this.next();
    }
  }
}
