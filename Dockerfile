# hookspan as a small image without a shell: a static binary, run by a user without rights.
FROM rust:1.95-slim AS build
RUN apt-get update \
    && apt-get install --yes --no-install-recommends musl-tools \
    && rm -rf /var/lib/apt/lists/* \
    && rustup target add "$(uname -m)-unknown-linux-musl"
WORKDIR /build
# What belongs to the build is listed in .dockerignore.
COPY . .
RUN cargo build --release --locked --bin hookspan --target "$(uname -m)-unknown-linux-musl" \
    && cp "target/$(uname -m)-unknown-linux-musl/release/hookspan" /hookspan
# What is linked into it, with its licences, and the bill of materials.
RUN mkdir /about && .ci/supply/notices /about

FROM scratch
COPY --from=build /hookspan /hookspan
COPY --from=build /about/ /about/
COPY LICENSE /about/LICENSE
# A user without a name and without rights.
USER 65532:65532
EXPOSE 8080
# Inside a container the service must listen on every address to be reachable at all, so it does not
# start before it is told who may call: mount a file of keys and name it in HOOKSPAN_KEYS. Where the
# port is published to 127.0.0.1 only (docker run -p 127.0.0.1:8080:8080), or something in front
# decides who may call, HOOKSPAN_ANONYMOUS=true does without.
ENV HOOKSPAN_BIND=0.0.0.0:8080 \
    HOOKSPAN_LOG_FORMAT=json
# No HEALTHCHECK: the image has no shell and no client to run one with. Let the platform ask
# GET /livez and GET /readyz.
ENTRYPOINT ["/hookspan"]
