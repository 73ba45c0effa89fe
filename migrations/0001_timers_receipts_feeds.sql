CREATE TABLE `feeds` (
	`secret` text PRIMARY KEY NOT NULL,
	`build` text NOT NULL,
	`name` text NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `feeds_by_build` ON `feeds` (`build`);--> statement-breakpoint
CREATE TABLE `timers` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text,
	`person` text NOT NULL,
	`task` text,
	`phase` text,
	`started_at` text NOT NULL,
	`note` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`person`) REFERENCES `people`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`task`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`phase`) REFERENCES `phases`(`build`,`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
ALTER TABLE `purchases` ADD `receipts` text DEFAULT '[]' NOT NULL;