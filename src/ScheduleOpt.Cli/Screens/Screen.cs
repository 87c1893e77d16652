using Spectre.Console;
using Spectre.Console.Rendering;

namespace ScheduleOpt.Cli.Screens;

/// <summary>A page of 80 columns for people; plain text where there is no terminal, colour only beside words that say the same.</summary>
internal sealed class Screen : IDisposable
{
    /// <summary>Columns of a page.</summary>
    public const int Width = 80;

    private readonly TextWriter target;
    private readonly StringWriter page = new();
    private readonly IAnsiConsole console;

    /// <summary>Opens a page.</summary>
    /// <param name="target">Where it goes when it is shown.</param>
    /// <param name="hasColour">Whether escape codes may be written.</param>
    public Screen(TextWriter target, bool hasColour)
    {
        this.target = target;
        console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = hasColour ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = hasColour ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(page),
        });
        console.Profile.Width = Width;
        console.Profile.Capabilities.Unicode = true;
    }

    /// <summary>A heading with a line to the page's edge.</summary>
    public void Heading(string text)
    {
        var line = new string('─', Math.Max(3, Width - text.Length - 4));
        console.Write(new Markup($"[bold]── {Markup.Escape(text)} {line}[/]\n"));
    }

    /// <summary>A line or paragraph, wrapped at words.</summary>
    public void Say(string text, string style = "")
    {
        foreach (var line in Wrapped(text, Width))
        {
            Line(line, style);
        }
    }

    /// <summary>A list of sentences.</summary>
    public void List(IEnumerable<string> sentences, string style = "")
    {
        foreach (var sentence in sentences)
        {
            var mark = "- ";
            foreach (var line in Wrapped(sentence, Width - 2))
            {
                Line(mark + line, style);
                mark = "  ";
            }
        }
    }

    /// <summary>A line as it is.</summary>
    public void Line(string text, string style = "") =>
        console.Write(new Markup($"{(style.Length > 0 ? $"[{style}]{Markup.Escape(text)}[/]" : Markup.Escape(text))}\n"));

    /// <summary>An empty line; nothing where the page ends in one already, as it does after a table.</summary>
    public void Blank()
    {
        var (text, at) = (page.GetStringBuilder(), page.GetStringBuilder().Length - 2);
        while (at > 0 && text[at] is ' ' or '\r')
        {
            at--;
        }

        if (at < 0 || text[at] != '\n' || text[^1] != '\n')
        {
            console.WriteLine();
        }
    }

    /// <summary>A table or another drawing.</summary>
    public void Draw(IRenderable drawing) => console.Write(drawing);

    /// <summary>Writes what has been put on the page so far.</summary>
    public void Show()
    {
        foreach (var line in page.ToString().TrimEnd('\n').Split('\n'))
        {
            target.WriteLine(line.TrimEnd());
        }

        target.Flush();
        page.GetStringBuilder().Clear();
    }

    /// <inheritdoc/>
    public void Dispose() => page.Dispose();

    /// <summary>Lines of whole words; a word longer than a line stands alone.</summary>
    internal static IEnumerable<string> Wrapped(string text, int width)
    {
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line;
                line = "";
            }

            line = line.Length > 0 ? $"{line} {word}" : word;
        }

        yield return line;
    }
}
