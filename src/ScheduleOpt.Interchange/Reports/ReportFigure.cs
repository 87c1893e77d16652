namespace ScheduleOpt.Interchange.Reports;

/// <summary>Puts a chart on a page; where the machine can't draw, the page says so once and goes on.</summary>
internal static class ReportFigure
{
    /// <summary>Adds a chart with its caption.</summary>
    public static void Add(HtmlPage page, Func<string> draw, string caption)
    {
        string svg;
        try
        {
            svg = draw();
        }
        catch (Exception e) when (e is TypeInitializationException or DllNotFoundException or EntryPointNotFoundException)
        {
            page.Say(ChartImage.NotDrawn, "small");
            return;
        }

        page.Markup("<figure>").Markup(svg).Element("figcaption", caption).Markup("</figure>");
    }
}
