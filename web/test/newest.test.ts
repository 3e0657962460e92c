import { describe, expect, it } from 'vitest';
import { Newest } from '../src/domain/newest';

/** A server that answers when told to. */
function slowServer() {
  const asked: string[] = [];
  const answers: ((how: 'answer' | 'fail') => void)[] = [];
  const newest = new Newest(({ name }: { name: string }) => {
    asked.push(name);
    return new Promise<string>((resolve, reject) =>
      answers.push((how) => (how === 'answer' ? resolve(`answer to ${name}`) : reject(new Error(name)))),
    );
  });
  const ask = (name: string) => {
    const question = { name };
    newest.propose(question);
    return newest.answerTo(question);
  };
  const settle = async (how: 'answer' | 'fail' = 'answer') => {
    await new Promise((done) => setTimeout(done));
    answers.shift()!(how);
  };
  return { newest, asked, ask, settle };
}

describe('questions that come faster than answers', () => {
  it('wait for the one that is asked, and only the newest is asked then', async () => {
    const { asked, ask, settle } = slowServer();
    const first = ask('a');
    await new Promise((done) => setTimeout(done));
    const [second, third] = [ask('b'), ask('c')];
    await settle();
    await settle();
    expect(await Promise.all([first, second, third])).toEqual([undefined, undefined, 'answer to c']);
    expect(asked).toEqual(['a', 'c']);
  });
  it('get no answer once dropped', async () => {
    const { newest, ask, settle } = slowServer();
    const answer = ask('a');
    await new Promise((done) => setTimeout(done));
    newest.drop();
    await settle();
    expect(await answer).toBeUndefined();
  });
  it('go on after one that failed, and tell the failure of the newest alone', async () => {
    const { ask, settle } = slowServer();
    const outdated = ask('a');
    await new Promise((done) => setTimeout(done));
    const failing = ask('b');
    await settle('fail');
    expect(await outdated).toBeUndefined();
    await settle('fail');
    await expect(failing).rejects.toThrow('b');
    const next = ask('c');
    await settle();
    expect(await next).toBe('answer to c');
  });
});
