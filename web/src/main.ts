import { mount } from 'svelte';
import App from './App.svelte';
import './app.css';

const target = document.getElementById('app');
if (target) mount(App, { target });

// Keeps the page for use off the network. Browsers offer this on this machine and over HTTPS only.
if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  addEventListener('load', () => {
    navigator.serviceWorker.register('/worker.js').catch(() => undefined);
  });
}
