using System.Text.RegularExpressions;
using ScottPlot;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Turns a chart into SVG that can stand inside a page beside others.</summary>
internal static partial class ChartImage
{
    // Present on most machines that draw text; where it is not, the drawing library takes the font it finds.
    private const string Font = "DejaVu Sans";

    /// <summary>What a report says where charts can't be drawn.</summary>
    public const string NotDrawn = "Charts could not be drawn on the machine that made this report: its drawing library did not start. The tables hold the same figures.";

    /// <summary>Sets the plain look that all charts share.</summary>
    public static Plot Plain()
    {
        var plot = new Plot();
        plot.Font.Set(Font);
        plot.HideLegend();

        // No line, but room for the last label of the axis below and the highest of the one beside.
        plot.Axes.Right.FrameLineStyle.Width = 0;
        plot.Axes.Right.MinimumSize = 26;
        plot.Axes.Top.FrameLineStyle.Width = 0;
        plot.Axes.Top.MinimumSize = 14;
        plot.Grid.MajorLineColor = Colors.Black.WithAlpha(0.12);
        return plot;
    }

    /// <summary>Draws it.</summary>
    /// <param name="plot">The chart. It holds no text that was asked: user texts stand in tables, bars are numbered.</param>
    /// <param name="prefix">Unique in the page: names inside the drawing get it.</param>
    /// <param name="height">Its height; the width is 760.</param>
    public static string Svg(Plot plot, string prefix, int height)
    {
        var xml = plot.GetSvgXml(760, height);
        var start = xml.IndexOf("<svg", StringComparison.Ordinal);

        // The library counts its names over the life of the process: numbered anew, equal charts have equal bytes.
        var names = new Dictionary<string, int>(StringComparer.Ordinal);
        xml = Ids().Replace(xml[start..], m =>
        {
            names.TryAdd(m.Groups[2].Value, names.Count + 1);
            return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{m.Groups[1].Value}{prefix}-{names[m.Groups[2].Value]}");
        });

        // The drawing scales with the page: its size becomes a view box.
        var end = xml.IndexOf('>', StringComparison.Ordinal);
        var head = xml[..end];
        return (head.Contains("viewBox", StringComparison.Ordinal) ? head : $"{head} viewBox=\"0 0 760 {height}\"") + " role=\"img\"" + xml[end..].TrimEnd();
    }

    [GeneratedRegex("( id=\"|url\\(#|href=\"#)([^\"\\)]+)", RegexOptions.CultureInvariant)]
    private static partial Regex Ids();
}
