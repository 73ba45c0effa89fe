CREATE TABLE `dismissals` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`reason` text NOT NULL,
	`on` text,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
ALTER TABLE `builds` ADD `archived_at` text;--> statement-breakpoint
ALTER TABLE `builds` ADD `place` real DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `purchases` ADD `shipping_tax_percent` real DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `purchases` ADD `shipping_tax_included` integer DEFAULT true NOT NULL;--> statement-breakpoint
ALTER TABLE `weighings` ADD `aboard` text;--> statement-breakpoint
ALTER TABLE `people` ADD `shared_as` text;--> statement-breakpoint
ALTER TABLE `tasks` ADD `option` text;