CREATE TABLE `actions` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`build` text NOT NULL,
	`revision` integer NOT NULL,
	`at` text NOT NULL,
	`who` text NOT NULL,
	`label` text NOT NULL,
	`kind` text NOT NULL,
	`state` text NOT NULL,
	`target` integer,
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `actions_by_build` ON `actions` (`build`,`id`);--> statement-breakpoint
CREATE TABLE `baselines` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`on` text NOT NULL,
	`tasks` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `builds` (
	`id` text PRIMARY KEY NOT NULL,
	`revision` integer NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`name` text NOT NULL,
	`vehicle` text NOT NULL,
	`currency` text NOT NULL,
	`units` text NOT NULL,
	`start_on` text NOT NULL,
	`target_finish_on` text,
	`as_of` text,
	`budget` integer,
	`contingency_percent` real NOT NULL,
	`pace` text NOT NULL,
	`money_in` text NOT NULL,
	`limits` text,
	`order` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `conditions` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`not_yearly` text NOT NULL,
	`not` text NOT NULL,
	`hours` text NOT NULL,
	`overrides` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `decisions` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`question` text NOT NULL,
	`options` text NOT NULL,
	`chosen` text,
	`by` text,
	`lead_days` integer NOT NULL,
	`locks_tasks` text NOT NULL,
	`locks_purchases` text NOT NULL,
	`put_off` integer NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`by`) REFERENCES `people`(`build`,`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `depths` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`hatch` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `exceptions` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`inner` text NOT NULL,
	`cover` text NOT NULL,
	`reason` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`inner`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`cover`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `hours` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text,
	`task` text,
	`phase` text,
	`person` text NOT NULL,
	`on` text NOT NULL,
	`minutes` integer NOT NULL,
	`note` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`task`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`phase`) REFERENCES `phases`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`person`) REFERENCES `people`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "hours_minutes" CHECK("hours"."minutes" between 1 and 1440)
);
--> statement-breakpoint
CREATE INDEX `hours_by_day` ON `hours` (`build`,`on`);--> statement-breakpoint
CREATE TABLE `journal` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`action` integer NOT NULL,
	`noun` text NOT NULL,
	`row` text NOT NULL,
	`before` text,
	`after` text,
	`position_before` real,
	`position_after` real,
	FOREIGN KEY (`action`) REFERENCES `actions`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `journal_by_action` ON `journal` (`action`);--> statement-breakpoint
CREATE INDEX `journal_by_row` ON `journal` (`noun`,`row`);--> statement-breakpoint
CREATE TABLE `links` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`from` text NOT NULL,
	`to` text NOT NULL,
	`kind` text NOT NULL,
	`lag_minutes` integer NOT NULL,
	`lag_on` text NOT NULL,
	`reason` text NOT NULL,
	`why` text,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`from`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`to`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "links_lag" CHECK("links"."lag_minutes" >= 0),
	CONSTRAINT "links_ends" CHECK("links"."from" <> "links"."to")
);
--> statement-breakpoint
CREATE TABLE `people` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`by_name_only` integer NOT NULL,
	`rate` integer NOT NULL,
	`week` text NOT NULL,
	`exceptions` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `phases` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`budget` integer NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "phases_budget" CHECK("phases"."budget" >= 0)
);
--> statement-breakpoint
CREATE TABLE `purchases` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`supplier` text NOT NULL,
	`state` text NOT NULL,
	`lead_days` integer NOT NULL,
	`lead_days_bad` integer,
	`ordered_on` text,
	`promised_on` text,
	`currency` text,
	`rate` real NOT NULL,
	`shipping` integer NOT NULL,
	`charges` text NOT NULL,
	`discount` integer NOT NULL,
	`lines` text NOT NULL,
	`quotes` text NOT NULL,
	`deliveries` text NOT NULL,
	`returns` text NOT NULL,
	`payments` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "purchases_money" CHECK("purchases"."shipping" >= 0 and "purchases"."discount" >= 0)
);
--> statement-breakpoint
CREATE TABLE `records` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text,
	`zone` text NOT NULL,
	`depth` text NOT NULL,
	`task` text,
	`taken_at` text NOT NULL,
	`file` text,
	`note` text NOT NULL,
	`marks` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`zone`) REFERENCES `zones`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`build`,`task`) REFERENCES `tasks`(`build`,`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `tasks` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`phase` text,
	`kinds` text NOT NULL,
	`minutes` text NOT NULL,
	`people` integer NOT NULL,
	`who` text NOT NULL,
	`tools` text NOT NULL,
	`shortest_sitting` integer NOT NULL,
	`wait_minutes` integer NOT NULL,
	`wait_conditions` text NOT NULL,
	`wait_holds_zones` integer NOT NULL,
	`conditions` text NOT NULL,
	`places` text NOT NULL,
	`reopen_minutes` integer,
	`steps` text NOT NULL,
	`hold_points` text NOT NULL,
	`state` text NOT NULL,
	`started_at` text,
	`finished_at` text,
	`hours_known` integer NOT NULL,
	`remaining_minutes` integer,
	`fixed_start` text,
	`fixed_why` text,
	`cautions` text NOT NULL,
	`note` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`build`,`phase`) REFERENCES `phases`(`build`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "tasks_people" CHECK("tasks"."people" >= 1),
	CONSTRAINT "tasks_finished" CHECK(("tasks"."state" = 'finished') = ("tasks"."finished_at" is not null))
);
--> statement-breakpoint
CREATE TABLE `tools` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`only` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `weighings` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text,
	`on` text NOT NULL,
	`front` integer NOT NULL,
	`rear` integer NOT NULL,
	`note` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `zone_groups` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`zones` text NOT NULL,
	`capacity` integer NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "zone_groups_capacity" CHECK("zone_groups"."capacity" >= 1)
);
--> statement-breakpoint
CREATE TABLE `zones` (
	`build` text NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`position` real NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`face` text NOT NULL,
	`bay` integer,
	`capacity` integer NOT NULL,
	`depths` text NOT NULL,
	PRIMARY KEY(`build`, `id`),
	FOREIGN KEY (`build`) REFERENCES `builds`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "zones_capacity" CHECK("zones"."capacity" >= 1)
);
