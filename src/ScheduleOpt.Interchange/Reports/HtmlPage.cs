using System.Text;
using System.Text.Encodings.Web;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Writes a page: every text goes through the encoder, only the project's own markup does not.</summary>
internal sealed class HtmlPage
{
    private readonly StringBuilder markup = new();

    /// <summary>Encodes a text for an element's content or a quoted attribute.</summary>
    /// <remarks>Control characters, which no page may hold, become spaces.</remarks>
    public static string Encoded(string text) =>
        HtmlEncoder.Default.Encode(text.Any(char.IsControl) ? new string([.. text.Select(c => char.IsControl(c) ? ' ' : c)]) : text);

    /// <summary>Adds markup of the project's own; never anything that was asked.</summary>
    public HtmlPage Markup(string own)
    {
        markup.Append(own).Append('\n');
        return this;
    }

    /// <summary>Adds an element with a text.</summary>
    public HtmlPage Element(string name, string text, string cssClass = "") =>
        Markup(cssClass.Length > 0 ? $"<{name} class=\"{cssClass}\">{Encoded(text)}</{name}>" : $"<{name}>{Encoded(text)}</{name}>");

    /// <summary>Adds a paragraph.</summary>
    public HtmlPage Say(string text, string cssClass = "") => Element("p", text, cssClass);

    /// <summary>Adds a list; nothing where it is empty.</summary>
    public HtmlPage List(IEnumerable<string> items, string name = "ul")
    {
        string[] all = [.. items];
        if (all.Length == 0)
        {
            return this;
        }

        Markup($"<{name}>");
        foreach (var item in all)
        {
            Element("li", item);
        }

        return Markup($"</{name}>");
    }

    /// <summary>Adds a table.</summary>
    /// <param name="caption">What it shows.</param>
    /// <param name="head">The heads of the columns; one that begins with &gt; is a column of figures, with &lt; one of long texts.</param>
    /// <param name="rows">The rows.</param>
    public HtmlPage Table(string caption, IReadOnlyList<string> head, IEnumerable<IReadOnlyList<string>> rows)
    {
        Markup("<table>").Element("caption", caption).Markup("<thead><tr>");
        foreach (var column in head)
        {
            Markup($"<th scope=\"col\"{Side(column)}>{Encoded(column.TrimStart('>', '<'))}</th>");
        }

        Markup("</tr></thead><tbody>");
        foreach (var row in rows)
        {
            markup.Append("<tr>");
            for (var i = 0; i < row.Count; i++)
            {
                markup.Append($"<td{Side(head[i])}>").Append(Encoded(row[i])).Append("</td>");
            }

            markup.Append("</tr>\n");
        }

        return Markup("</tbody></table>");
    }

    /// <inheritdoc/>
    public override string ToString() => markup.ToString();

    private static string Side(string column) => column.StartsWith('>') ? " class=\"figure\"" : column.StartsWith('<') ? " class=\"long\"" : "";
}
