/** Yes or no, with the reason for either. */
export interface Flag {
	readonly holds: boolean;
	readonly reason: string;
}
