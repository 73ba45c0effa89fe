/** Starts the client: theme first, so that nothing flashes, then the one page. */
import { mount } from 'svelte';
import './base.css';
import './print.css';
import './stacked-table.css';
import App from './App.svelte';
import { theme } from './state/theme.svelte.ts';

theme.apply();
mount(App, { target: document.getElementById('sheet')! });
