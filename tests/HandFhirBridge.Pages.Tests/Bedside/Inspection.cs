using System.Text.Json;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Bedside;

/// <summary>WCAG 2.2 AA as far as a machine can tell, of one state of the page at every width.</summary>
internal sealed class Inspection(IPage page)
{
    // 48 px less what the browser rounds.
    private const double SmallestTarget = 47.5;

    // WCAG 2.2, 1.4.10 Reflow: content at a width of 320 CSS px needs no scrolling sideways.
    private static readonly (string Name, int Width, int Height) Narrow = ("narrow", 320, 640);
    private static readonly string AxeScript = new BundledAxeScriptProvider().GetScript();

    /// <summary>Everything found so far: the state, the width, and what is wrong with which element.</summary>
    public List<string> Found { get; } = [];

    /// <summary>Looks at the state the page is in, by axe-core at the narrowest and the widest, by size and reflow at all widths.</summary>
    public async Task LookAsync(string state)
    {
        var was = page.ViewportSize!;
        foreach (var (name, width, height) in Album.Devices.Prepend(Narrow))
        {
            await page.SetViewportSizeAsync(width, height);
            await MeasureAsync($"{state}, {name}");
            if (name is "narrow" or "desktop")
            {
                await RunAxeAsync($"{state}, {name}");
            }

            if (name != Narrow.Name)
            {
                await Album.TakeAsync(page, state, name);
            }
        }

        await page.SetViewportSizeAsync(was.Width, was.Height);
    }

    private async Task MeasureAsync(string where)
    {
        Found.AddRange((await page.EvaluateAsync<string[]>(SmallTargets, SmallestTarget)).Select(target => $"{where}: target {target}"));
        if (await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth > innerWidth"))
        {
            Found.Add($"{where}: scrolls sideways");
        }

        Found.AddRange((await page.EvaluateAsync<string[]>(CutOff)).Select(text => $"{where}: cut off: {text}"));
    }

    // Not by the package's own call: it opens a second page to gather results, which hides the first one.
    private async Task RunAxeAsync(string where)
    {
        if (await page.EvaluateAsync<bool>("() => typeof axe === 'undefined'"))
        {
            await page.EvaluateAsync(AxeScript);
        }

        var violations = await page.EvaluateAsync<JsonElement?>("""
            () => axe.run(document, {
              resultTypes: ['violations'],
              runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
            }).then(({ violations }) => violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`))
            """);
        Found.AddRange(violations!.Value.EnumerateArray().Select(violation => $"{where}: {violation.GetString()}"));
    }

    private const string SmallTargets = """
        (smallest) => [...document.querySelectorAll('button, a, select, textarea, summary, .tile, .check, input:not([type=radio], [type=checkbox])')]
          .filter((e) => e.offsetParent && !e.closest('.unseen'))
          .map((e) => [e, e.getBoundingClientRect()])
          .filter(([, r]) => r.width > 0 && (r.height < smallest || r.width < smallest))
          .map(([e, r]) => `${e.tagName} "${e.textContent.trim().slice(0, 30)}" ${Math.round(r.width)}x${Math.round(r.height)}`)
        """;

    // Text that does not fit the box it stands in, and words of a drawing beyond its edge.
    private const string CutOff = """
        () => [...document.querySelectorAll('button, .tile > span, .chip, th, td, h1, .half, .steps li')]
          .filter((e) => e.offsetParent && !e.closest('.unseen') && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0)
          .map((e) => `${e.tagName} "${e.textContent.trim().slice(0, 30)}"`)
          .concat([...document.querySelectorAll('svg.scene')].flatMap((scene) => {
            const frame = scene.getBoundingClientRect();
            return [...scene.querySelectorAll('text')].map((e) => [e, e.getBoundingClientRect()])
              .filter(([, r]) => r.width > 0 && (r.left < frame.left - 1 || r.right > frame.right + 1 || r.top < frame.top - 1 || r.bottom > frame.bottom + 1))
              .map(([e]) => `drawing "${e.textContent}"`);
          }))
        """;
}
