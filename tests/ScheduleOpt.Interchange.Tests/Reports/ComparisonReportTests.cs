using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Xml;
using System.Xml.Linq;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Reports;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Reports;

public sealed class ComparisonReportTests
{
    private static readonly string[] Own =
    [
        "html", "head", "meta", "title", "style", "body", "div", "h1", "h2", "h3", "p", "ul", "ol", "li", "strong", "table", "caption", "thead", "tbody", "tr",
        "th", "td", "figure", "figcaption", "footer",
    ];

    private static readonly string[] Drawn = ["svg", "g", "path", "rect", "text", "line", "polyline", "polygon", "circle", "ellipse", "defs", "clipPath", "use", "tspan"];

    [Fact]
    public void Report_Sections_AreAllThereInOrder()
    {
        var page = Parsed(ReportOf(ReportRequest.Json()));
        Assert.Equal(
            ["Results", "Why", "What would flip the ranking", "Money", "Range added per hour", "Panel estimate", "Inputs", "Assumptions and their sources", "Cautions", "Disclosure"],
            page.Descendants("h2").Select(h => h.Value));

        // The points of a rate comparison's disclosure: California decision D.20-08-001 and utilities' own pages, ten of them.
        Assert.Equal(10, page.Descendants("h2").Last().ElementsAfterSelf("ol").First().Elements("li").Count());

        // The class of evidence comes before the first section.
        var evidence = page.Descendants("div").Single(d => (string?)d.Attribute("class") == "evidence");
        Assert.Contains("annual figure of 6000 kWh", evidence.Value, StringComparison.Ordinal);
        Assert.Empty(evidence.ElementsBeforeSelf("h2"));
    }

    [Fact]
    public void Report_Figures_AreTheAnswersAndOverridesAreListed()
    {
        var (request, decided) = ReportRequest.Run(ReportRequest.Json());
        var text = Parsed(ComparisonReport.Write(request, decided)).Value;
        foreach (var cell in decided.Cells)
        {
            Assert.Contains(cell.Year.WholeHouseCost.ToString("N2", CultureInfo.InvariantCulture), text, StringComparison.Ordinal);
            Assert.Contains(Math.Round(cell.LifeCycle!.Alternative.Total, 2, MidpointRounding.AwayFromZero).ToString("N2", CultureInfo.InvariantCulture), text, StringComparison.Ordinal);
        }

        Assert.All(new[] { "#/awayCharging/pricePerKwh", "0.52", "0.48", "Seen in May", "A. Adviser", request.InputHash, ProgramVersion.Text, "never a clearance" },
            part => Assert.Contains(part, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Report_InMiles_HasNoKilometre()
    {
        // 15.5 kWh per 100 km are 24.94 per 100 mi, by hand; 80,000 km, where the search ends, are 49,710 mi.
        var request = ReportRequest.Json();
        request["options"] = JsonNode.Parse("""{"gridMinutes":60,"breakEvens":true,"unit":"mi"}""");
        var (read, decided) = ReportRequest.Run(request);
        var text = Parsed(ComparisonReport.Write(read, decided)).Value;
        var json = JsonNode.Parse(ComparisonAnswerWriter.Write(read, decided))!;
        var axis = json["breakEvens"]!["axes"]!.AsArray().Single(a => a!["name"]!.GetValue<string>() == "Distance per year")!;

        Assert.Contains("24.94 kWh per 100 mi", text, StringComparison.Ordinal);
        Assert.Contains(axis["wording"]!.GetValue<string>(), text, StringComparison.Ordinal);
        Assert.DoesNotMatch("[0-9] km", text);
        Assert.Equal("mi", axis["unit"]!.GetValue<string>());
        Assert.Equal(49_709.6954, axis["high"]!.GetValue<double>(), 1e-3);
        var kilometres = decided.Flips!.Axes.Single(a => a.Axis.Name == "Distance per year");
        Assert.Equal(kilometres.Found.Select(f => Math.Round(f.At / 1.609344, 4)), axis["at"]!.AsArray().Select(a => Math.Round(a!.GetValue<double>(), 4)));
    }

    [Fact]
    public void Report_InMiles_HasTemperaturesInFahrenheit()
    {
        // By hand: 20 degC are 68 degF, and heating begins below 6 degC, 42.8 degF.
        var request = ReportRequest.Json();
        request["options"] = JsonNode.Parse("""{"gridMinutes":60,"unit":"mi"}""");
        var (read, decided) = ReportRequest.Run(request);
        var text = Parsed(ComparisonReport.Write(read, decided)).Value;
        var week = Math.Round((decided.Year.ColdestWeek.MeanC * 9 / 5) + 32, 1);
        var winter = Math.Round((decided.SetUps[0].Seasons[0].MeanC * 9 / 5) + 32, 1);
        Assert.All(
            [
                "per 100 mi at 68 degF", "rated at 68 degF", "battery heating below 42.8 degF", "Mean degF", "1 K is 1.8 degF",
                FormattableString.Invariant($"mean {week:0.#} degF"), FormattableString.Invariant($"{winter:0.#}"),
            ],
            part => Assert.Contains(part, text, StringComparison.Ordinal));
        Assert.DoesNotContain("degC", text, StringComparison.Ordinal);
        Assert.DoesNotContain("degF", Parsed(ComparisonReport.Write(read, decided, ShownUnits.For(DistanceUnit.Mile, inFahrenheit: false))).Value, StringComparison.Ordinal);
        Assert.DoesNotContain("degF", Parsed(ComparisonReport.Write(read, decided, ShownUnits.For(DistanceUnit.Kilometre))).Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_WhatWouldFlip_IsInWordsAndPerCent()
    {
        var request = ReportRequest.Json();
        request["options"] = JsonNode.Parse("""{"gridMinutes":60,"breakEvens":true,"uncertainty":true}""");
        var page = Parsed(ReportOf(request));
        var flips = string.Join('\n', page.Descendants("h2").Single(h => h.Value == "What would flip the ranking").ElementsAfterSelf().TakeWhile(e => e.Name.LocalName != "h2").Select(e => e.Value));
        Assert.DoesNotContain(" | ", page.Value, StringComparison.Ordinal);
        Assert.All(new[] { "example-power", "onArrival", " share." }, raw => Assert.DoesNotContain(raw, flips, StringComparison.Ordinal));
        Assert.All(new[] { "First: ", "on arrival", "times 0.8", "14.3 %", "0 % a year" }, said => Assert.Contains(said, flips, StringComparison.Ordinal));
    }

    [Fact]
    public void Report_WarningOfOneCombination_NamesIt()
    {
        var (_, decided) = ReportRequest.Run(ReportRequest.Json());
        var ends = decided.Cells.Where(c => c.Year.Warnings.Any(w => w.StartsWith("The year ends", StringComparison.Ordinal))).ToArray();
        var page = Parsed(ReportOf(ReportRequest.Json()));
        Assert.NotEmpty(ends);
        var lines = page.Descendants("li").Select(l => l.Value).Where(l => l.Contains("The year ends", StringComparison.Ordinal)).ToArray();
        Assert.NotEmpty(lines);
        Assert.All(lines, l => Assert.Contains(decided.Cells, c => l.StartsWith(c.Year.SetUp.Name, StringComparison.Ordinal) || l.StartsWith(c.Year.RatePlan.Name, StringComparison.Ordinal)));
    }

    [Fact]
    public void Report_OfTheSameRequest_HasTheSameBytes() => Assert.Equal(ReportOf(ReportRequest.Json()), ReportOf(ReportRequest.Json()));

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\"><img src=x onerror=alert(1)>")]
    [InlineData("</style></title></svg><svg onload=alert(1)>")]
    [InlineData("' onmouseover='alert(1)")]
    [InlineData("<!--")]
    [InlineData("]]><![CDATA[ &amp; &#60;script&#62; javascript:alert(1)")]
    [InlineData("a\u0000b\u001b[31m")]
    public void Report_HostileTexts_StayTexts(string hostile)
    {
        var request = ReportRequest.Json();
        request["setUps"]![0]!["name"] = hostile;
        request["today"]!["setUp"] = hostile;
        request["scenario"]!["name"] = hostile;
        request["scenario"]!["author"] = hostile;
        request["scenario"]!["overrides"]![0]!["note"] = hostile;
        request["setUps"]![1]!["incentives"]![0]!["name"] = hostile;
        request["setUps"]![1]!["incentives"]![0]!["source"] = hostile;
        request["panel"]!["loads"]![0]!["name"] = hostile;
        var page = Parsed(ReportOf(request));

        Assert.Subset(Own.Concat(Drawn).ToHashSet(), page.DescendantsAndSelf().Select(e => e.Name.LocalName).ToHashSet());
        Assert.DoesNotContain(page.DescendantsAndSelf().Attributes(), a => a.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase)
            || a.Value.Contains("javascript:", StringComparison.OrdinalIgnoreCase));

        // Nothing is fetched: every reference leads into the page itself.
        Assert.All(page.DescendantsAndSelf().Attributes().Where(a => a.Name.LocalName is "href" or "src"), a => Assert.StartsWith("#", a.Value, StringComparison.Ordinal));
        var shown = new string([.. hostile.Select(c => char.IsControl(c) ? ' ' : c)]);
        Assert.Contains(page.Descendants("td"), d => d.Value == shown);
        Assert.EndsWith(shown, page.Descendants("h1").Single().Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_Charts_HaveNamesOfTheirOwn()
    {
        var page = Parsed(ReportOf(ReportRequest.Json()));
        Assert.Equal(3, page.Descendants("figure").Count());
        Assert.All(page.Descendants("figure"), f => Assert.Contains(f.Descendants(), e => e.Name.LocalName == "path"));
        var names = page.Descendants().Attributes("id").Select(a => a.Value).ToArray();
        Assert.Equal(names.Length, names.Distinct().Count());
    }

    [Fact]
    public void Report_WithoutWhatNeedNotBeAsked_SaysSo()
    {
        var request = ReportRequest.Json();
        foreach (var field in new[] { "today", "lifeCycle", "panel", "scenario", "houseLoad" })
        {
            request.Remove(field);
        }

        var text = Parsed(ReportOf(request)).Value;
        Assert.Contains("Life-cycle cost was not asked for", text, StringComparison.Ordinal);
        Assert.Contains("No house load is given", text, StringComparison.Ordinal);
        Assert.Contains("Nothing was given about the panel", text, StringComparison.Ordinal);
        Assert.Contains("Break-evens were not asked for", text, StringComparison.Ordinal);
    }

    private static byte[] ReportOf(JsonObject request)
    {
        var (read, decided) = ReportRequest.Run(request);
        return ComparisonReport.Write(read, decided);
    }

    // Written so that a reader of XML, which forgives nothing, can read it.
    private static XElement Parsed(byte[] report)
    {
        using var text = new StringReader(Encoding.UTF8.GetString(report));
        using var reader = XmlReader.Create(text, new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null });
        return XDocument.Load(reader).Root!;
    }
}
