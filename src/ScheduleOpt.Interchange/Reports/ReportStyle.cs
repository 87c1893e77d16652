namespace ScheduleOpt.Interchange.Reports;

/// <summary>The look of a report: paper first, black on white, no script, nothing fetched.</summary>
internal static class ReportStyle
{
    /// <summary>The policy under which a report is served: an opaque origin, no script, no form, no fetch; its own style alone.</summary>
    public const string ContentSecurityPolicy =
        "sandbox; default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    /// <summary>The style sheet.</summary>
    public const string Css = """
        @page { size: A4; margin: 18mm 16mm; }
        * { box-sizing: border-box; }
        body { max-width: 52rem; margin: 2rem auto; padding: 0 1rem; color: #111; background: #fff;
               font: 11pt/1.45 "DejaVu Serif", Georgia, "Times New Roman", serif; overflow-wrap: anywhere; }
        h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .2rem; }
        h2 { font-size: 1.2rem; margin: 2.2rem 0 .6rem; padding-bottom: .2rem; border-bottom: 2px solid #111; break-after: avoid; }
        h3 { font-size: 1rem; margin: 1.3rem 0 .3rem; break-after: avoid; }
        p { margin: .4rem 0 .8rem; }
        .lead { font-size: 1.05rem; }
        .evidence { border: 2px solid #111; padding: .6rem .9rem; margin: 1rem 0; }
        .evidence h3 { margin-top: .2rem; }
        .small { font-size: .82rem; color: #333; }
        .hash { font-family: "DejaVu Sans Mono", monospace; font-size: .78rem; }
        table { width: 100%; border-collapse: collapse; margin: .8rem 0 1.2rem; font-size: .82rem; font-variant-numeric: tabular-nums; }
        caption { text-align: left; font-weight: bold; padding: .2rem 0; }
        th, td { text-align: left; vertical-align: top; padding: .22rem .6rem .22rem 0; border-bottom: 1px solid #bbb; }
        thead th { border-bottom: 1.5px solid #111; }
        thead { display: table-header-group; }
        tr, figure { break-inside: avoid; }
        th, td { min-width: 5.8em; }
        td.long, th.long { min-width: 11em; }
        td.figure, th.figure { text-align: right; min-width: 2.6em; }
        td.figure { white-space: nowrap; }
        th { overflow-wrap: normal; hyphens: auto; }
        figure { margin: 1rem 0; }
        figure svg { width: 100%; height: auto; display: block; }
        figcaption { font-size: .82rem; margin-top: .2rem; }
        li { margin: .2rem 0; }
        @media print { body { max-width: none; margin: 0; padding: 0; font-size: 10pt; } h2 { margin-top: 1.4rem; } }
        """;
}
