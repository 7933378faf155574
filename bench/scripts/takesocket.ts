// The live socket sends the take while it is played and receives verdicts. When
// it is slow or lost, the verdicts stop and the take goes on.

export interface Mark {
  index: number;
  verdict: "right" | "wrong" | "missed";
  timing_ms?: number;
  cents?: number;
}

export interface News {
  marks: Mark[];
  fed_s: number;
}

const openMS = 1500; // how long the count-in may wait for the socket
const behindS = 1.5; // of unsent sound, after which verdicts would come too late to help
const endMS = 2000; // how long the last verdicts are waited for

export class LiveSocket {
  #socket: WebSocket;
  #live = false;

  constructor(
    address: string,
    private rate: number,
    private onNews: (news: News) => void,
    private onLost: () => void,
  ) {
    this.#socket = new WebSocket(address);
    this.#socket.binaryType = "arraybuffer";
    this.#socket.onmessage = (event: MessageEvent<string>) => this.onNews(JSON.parse(event.data) as News);
    this.#socket.onclose = () => this.#lose();
  }

  /** opened waits for the socket; false when it can't be had in time. */
  opened(): Promise<boolean> {
    return new Promise((resolve) => {
      const late = window.setTimeout(() => {
        this.close(); // one that opened later would hear the take from its middle
        resolve(false);
      }, openMS);
      this.#socket.addEventListener("open", () => {
        clearTimeout(late);
        this.#live = true;
        resolve(true);
      });
      this.#socket.addEventListener("error", () => {
        clearTimeout(late);
        resolve(false);
      });
    });
  }

  send(samples: Float32Array): void {
    if (!this.#live || samples.length === 0) return;
    if (this.#socket.readyState !== WebSocket.OPEN || this.#socket.bufferedAmount > behindS * this.rate * Float32Array.BYTES_PER_ELEMENT) {
      this.#lose();
      return;
    }
    this.#socket.send(samples as Float32Array<ArrayBuffer>);
  }

  /** end asks for the last verdicts and waits for them a moment. */
  end(): Promise<void> {
    if (!this.#live) {
      this.close();
      return Promise.resolve();
    }
    this.#live = false;
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(late);
        this.close();
        resolve();
      };
      const late = window.setTimeout(done, endMS);
      this.#socket.addEventListener("close", done);
      this.#socket.send("end");
    });
  }

  /** close closes the socket. One that is still opening is closed once it is
   * open, since browsers report an error otherwise. */
  close(): void {
    this.#live = false;
    if (this.#socket.readyState === WebSocket.OPEN) this.#socket.close();
    else if (this.#socket.readyState === WebSocket.CONNECTING) this.#socket.addEventListener("open", () => this.#socket.close());
  }

  #lose(): void {
    if (!this.#live) return;
    this.close();
    this.onLost();
  }
}
