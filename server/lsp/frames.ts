/**
 * Bytes → messages. A message that cannot be read, or bytes that are none, are told of and passed over; what stands
 * behind them is read at once, so that nothing that a client writes by mistake can stop the server.
 */
import type { Readable } from "node:stream";
import {
  AbstractMessageReader,
  type DataCallback,
  Disposable,
  type Message,
  type MessageReader,
} from "vscode-languageserver/node";

const HEADER_END = "\r\n\r\n";
/** No header is longer than this, in bytes: what is, is none. */
const LONGEST_HEADER = 4096;
/** The largest message that is taken, in bytes: far over the largest file that is read. */
const LARGEST_MESSAGE = 256 * 1024 * 1024;

/** Reads messages from a stream, each behind a header with its length. */
export function readMessages(stream: Readable): MessageReader {
  return new FrameReader(stream);
}

class FrameReader extends AbstractMessageReader implements MessageReader {
  private chunks: Buffer[] = [];
  private size = 0;
  /** Bytes of the message whose header was read; null while a header is looked for. */
  private wanted: number | null = null;
  private callback: DataCallback = () => {};

  constructor(private readonly stream: Readable) {
    super();
  }

  listen(callback: DataCallback): Disposable {
    this.callback = callback;
    const onData = (chunk: Buffer): void => this.take(chunk);
    this.stream.on("data", onData);
    this.stream.on("error", (error) => this.fireError(error));
    this.stream.on("close", () => this.fireClose());
    return Disposable.create(() => this.stream.off("data", onData));
  }

  private take(chunk: Buffer): void {
    this.chunks.push(chunk);
    this.size += chunk.length;
    while (this.wanted === null ? this.readHeader() : this.readBody(this.wanted));
  }

  private readHeader(): boolean {
    const bytes = this.all();
    const end = bytes.indexOf(HEADER_END);
    if (end < 0) {
      if (bytes.length > LONGEST_HEADER) this.passOver(bytes, bytes.length - HEADER_END.length);
      return false;
    }
    const header = bytes.toString("latin1", 0, end);
    const length = Number(/^Content-Length: *(\d+) *$/im.exec(header)?.[1]);
    if (!(length <= LARGEST_MESSAGE)) {
      this.passOver(bytes, end + HEADER_END.length);
      return true;
    }
    this.keep(bytes.subarray(end + HEADER_END.length));
    this.wanted = length;
    return true;
  }

  private readBody(length: number): boolean {
    if (this.size < length) return false;
    const bytes = this.all();
    this.keep(bytes.subarray(length));
    this.wanted = null;
    try {
      this.callback(JSON.parse(bytes.toString("utf8", 0, length)) as Message);
    } catch (error) {
      this.fireError(error);
    }
    return true;
  }

  private passOver(bytes: Buffer, count: number): void {
    this.keep(bytes.subarray(count));
    this.fireError(new Error(`${count} bytes were passed over: they are no header of a message.`));
  }

  private all(): Buffer {
    const bytes = this.chunks.length === 1 ? (this.chunks[0] as Buffer) : Buffer.concat(this.chunks);
    this.keep(bytes);
    return bytes;
  }

  private keep(bytes: Buffer): void {
    this.chunks = bytes.length > 0 ? [bytes] : [];
    this.size = bytes.length;
  }
}
