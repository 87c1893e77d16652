namespace ScheduleOpt.Service.Problems;

/// <summary>A kind of problem: a stable URI that a program can switch on, a title and an HTTP status.</summary>
/// <param name="Name">The last part of the URI.</param>
/// <param name="Status">The HTTP status code.</param>
/// <param name="Title">The title, the same for every problem of this kind.</param>
public sealed record ProblemKind(string Name, int Status, string Title)
{
    /// <summary>The URI. It identifies the kind and need not lead anywhere.</summary>
    public string Type => $"https://scheduleopt.example/problems/{Name}";

    /// <summary>The request line or a header can't be understood.</summary>
    public static ProblemKind BadRequest { get; } = new("bad-request", 400, "The request can't be understood");

    /// <summary>The body is not JSON.</summary>
    public static ProblemKind MalformedJson { get; } = new("malformed-json", 400, "The body is not JSON");

    /// <summary>The Host header names a host this service does not answer for.</summary>
    public static ProblemKind UnknownHost { get; } = new("unknown-host", 400, "The service does not answer under this host name");

    /// <summary>The API key is missing or wrong.</summary>
    public static ProblemKind KeyRequired { get; } = new("key-required", 401, "An API key is required");

    /// <summary>The request comes from a page of another origin.</summary>
    public static ProblemKind ForeignOrigin { get; } = new("foreign-origin", 403, "Pages of other origins may not change anything here");

    /// <summary>Nothing is there.</summary>
    public static ProblemKind NotFound { get; } = new("not-found", 404, "Nothing is here");

    /// <summary>The method is not offered here.</summary>
    public static ProblemKind MethodNotAllowed { get; } = new("method-not-allowed", 405, "This method is not offered here");

    /// <summary>None of the media types asked for is offered.</summary>
    public static ProblemKind NotAcceptable { get; } = new("not-acceptable", 406, "None of the media types asked for is offered");

    /// <summary>The body did not arrive in time.</summary>
    public static ProblemKind RequestTimeout { get; } = new("request-timeout", 408, "The body did not arrive in time");

    /// <summary>The body is larger than the limit.</summary>
    public static ProblemKind BodyTooLarge { get; } = new("body-too-large", 413, "The body is too large");

    /// <summary>The body is of a media type that is not read here.</summary>
    public static ProblemKind UnsupportedMediaType { get; } = new("unsupported-media-type", 415, "This media type is not read here");

    /// <summary>The body breaks a limit or contradicts itself.</summary>
    public static ProblemKind InvalidRequest { get; } = new("invalid-request", 422, "The request breaks a limit or contradicts itself");

    /// <summary>Too many requests in a short time.</summary>
    public static ProblemKind TooManyRequests { get; } = new("too-many-requests", 429, "Too many requests");

    /// <summary>Something failed here.</summary>
    public static ProblemKind InternalError { get; } = new("internal-error", 500, "Something failed here, not in the request");

    /// <summary>Every solver is busy.</summary>
    public static ProblemKind Busy { get; } = new("busy", 503, "Every solver is busy");

    /// <summary>The service can't answer yet.</summary>
    public static ProblemKind NotReady { get; } = new("not-ready", 503, "The service is not ready");

    /// <summary>Every kind, for the documentation.</summary>
    public static IReadOnlyList<ProblemKind> All { get; } =
    [
        BadRequest, MalformedJson, UnknownHost, KeyRequired, ForeignOrigin, NotFound, MethodNotAllowed, NotAcceptable, RequestTimeout,
        BodyTooLarge, UnsupportedMediaType, InvalidRequest, TooManyRequests, InternalError, Busy, NotReady,
    ];
}
