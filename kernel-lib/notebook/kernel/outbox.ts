/** What a socket can do for us: one send at a time. */
export interface Outlet {
	send(frames: Buffer[]): Promise<void>;
}

/** Messages on their way, in order, socket by socket. */
export interface Outbox {
	send(outlet: Outlet, frames: readonly Uint8Array[]): void;
	/** Resolves when everything that was given to it has left. */
	settled(): Promise<void>;
}

/**
 * Sends at once where the socket is free, so that a cell which computes without a pause can show how far it is; a message that meets a busy socket waits behind the one before.
 * A message that cannot be sent is dropped: the front end is gone.
 */
export function openOutbox(): Outbox {
	const lines = new Map<Outlet, Promise<void>>();

	function send(outlet: Outlet, frames: readonly Uint8Array[]): void {
		const message = frames as Buffer[];
		const before = lines.get(outlet);
		const leaving =
			before === undefined
				? now(outlet, message)
				: before.then(() => outlet.send(message));
		// A socket that takes a message without waiting is free again at once, though its promise is only settled when the cell pauses.
		if (leaving === undefined) return;
		const line = leaving
			.catch(() => {})
			.then(() => {
				if (lines.get(outlet) === line) lines.delete(outlet);
			});
		lines.set(outlet, line);
	}

	const direct = new Map<Outlet, Promise<unknown>>();

	/** undefined when it left; a promise when it has to wait for the one that is leaving. */
	function now(outlet: Outlet, message: Buffer[]): Promise<void> | undefined {
		try {
			const sent = outlet.send(message).catch(() => {});
			direct.set(outlet, sent);
			return undefined;
		} catch {
			return (direct.get(outlet) ?? Promise.resolve()).then(() =>
				outlet.send(message),
			);
		}
	}

	return {
		send,
		async settled() {
			await Promise.all([...direct.values(), ...lines.values()]);
		},
	};
}
